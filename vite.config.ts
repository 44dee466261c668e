/** The application for browsers: `vite build` for a server on loopback, with RAMRISE_SINGLE=1 as one HTML file for a stick. */
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';
import { viteSingleFile } from 'vite-plugin-singlefile';

const single = process.env.RAMRISE_SINGLE === '1';
const at = (path: string) => new URL(path, import.meta.url).pathname;

export default defineConfig({
  root: at('src/web'),
  base: './',
  plugins: [
    {
      name: 'files-in-memory',
      enforce: 'pre',
      resolveId: (source, importer) =>
        source.endsWith('/disk.ts') && importer?.includes('/src/files/') ? at('src/web/disk.ts') : null,
    },
    svelte({ compilerOptions: { css: 'external' } }),
    ...(single ? [viteSingleFile()] : []),
  ],
  resolve: { alias: { 'csv-parse/sync': 'csv-parse/browser/esm/sync' } },
  worker: { format: 'es' },
  build: {
    outDir: at(single ? 'dist/single' : 'dist/web'),
    emptyOutDir: true,
    target: 'es2023',
    assetsInlineLimit: single ? Number.POSITIVE_INFINITY : 0,
  },
  assetsInclude: ['**/*.nc', '**/*.geojson', '**/*.csv', '**/*.yaml'],
});
