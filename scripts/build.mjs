/** `npm run build`: installs and builds, each only where it is needed. */
import { build, install } from './setup.mjs';

try {
  install();
  if (!build()) console.log('dist/ is up to date.');
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
