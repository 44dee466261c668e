/** `npm run demo`: installs, builds, and plans the demo sortie, each only where it is needed. */
import { join } from 'node:path';
import { build, demo, install, node, root } from './setup.mjs';

const out = join('out', 'demo');

try {
  install();
  build();
  process.exitCode = node([join(root, 'bin', 'ramrise.js'), 'plan', demo, '--out', out]).status ?? 1;
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
