/** `npm run bench:web`: builds where it is needed and measures the application in a browser. */
import { build, install, node } from './setup.mjs';

install();
build();
process.exitCode = node(['--import', 'tsx', 'bench/web.ts']).status ?? 1;
