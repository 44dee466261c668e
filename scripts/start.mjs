/** `npm start`: installs and builds, each only where it is needed, and serves the application on this machine. */
import { join } from 'node:path';
import { build, install, node, root } from './setup.mjs';

try {
  install();
  build();
  process.exitCode =
    node([join(root, 'bin', 'ramrise.js'), 'serve', '--open', ...process.argv.slice(2)]).status ?? 1;
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
