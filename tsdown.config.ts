import { defineConfig } from 'tsdown';

/** One ES module for the command line; what a command alone needs stays in chunks that it loads when it runs. */
export default defineConfig({
  entry: { main: 'src/cli/main.ts' },
  format: 'esm',
  platform: 'node',
  target: 'node20',
  outDir: 'dist',
  clean: true,
  dts: false,
  outExtensions: () => ({ js: '.js' }),
});
