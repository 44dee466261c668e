/** Makes sure that the commands under test are those of today's sources. */
import { build } from '../../../scripts/setup.mjs';

export default function setup(): void {
  build();
}
