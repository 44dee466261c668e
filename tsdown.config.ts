import { defineConfig } from 'tsdown';

/**
 * One ES module for the command line; what a command alone needs stays in chunks that it loads when it runs. Of packages of which
 * a part is used that part is bundled: it starts sooner and takes less memory.
 */
export default defineConfig({
  entry: { main: 'src/cli/main.ts' },
  format: 'esm',
  platform: 'node',
  target: 'node20',
  outDir: 'dist',
  clean: true,
  deps: {
    alwaysBundle: ['commander', 'csv-parse', 'd3-array', 'd3-geo', 'd3-scale', 'd3-shape', 'yaml', 'zod'],
  },
  dts: false,
  outExtensions: () => ({ js: '.js' }),
});
