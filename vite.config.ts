/** The application for browsers: `vite build` for a server on loopback, with RAMRISE_SINGLE=1 as one HTML file for a stick. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig, type Plugin } from 'vite';
import { viteSingleFile } from 'vite-plugin-singlefile';

const single = process.env.RAMRISE_SINGLE === '1';
const at = (path: string) => new URL(path, import.meta.url).pathname;

/** Files that the page was given take the place of those on a disk. */
function filesInMemory(): Plugin {
  return {
    name: 'files-in-memory',
    enforce: 'pre',
    resolveId: (source, importer) =>
      source.endsWith('/disk.ts') && importer?.includes('/src/files/') ? at('src/web/disk.ts') : null,
  };
}

/** In one file the workers stand in the page as text. */
function workersInside(): Plugin {
  return {
    name: 'workers-inside',
    enforce: 'pre',
    transform: (code, id) =>
      id.includes('/src/web/') ? code.replace("worker.ts?worker'", "worker.ts?worker&inline'") : null,
  };
}

/** Writes the service worker with the names of all files of the build in it. */
function offline(): Plugin {
  return {
    name: 'offline',
    generateBundle(_options, bundle) {
      const names = Object.keys(bundle).sort();
      const build = createHash('sha256').update(names.join('\n')).digest('hex').slice(0, 12);
      const files = ['./', ...names.filter((name) => name !== 'index.html').map((name) => `./${name}`)];
      const source = readFileSync(at('src/web/offline-worker.js'), 'utf8');
      const kept = JSON.stringify({ files, build });
      this.emitFile({
        type: 'asset',
        fileName: 'keep.js',
        source: source.replace(/\/\* @kept \*\/ .*;/, `${kept};`),
      });
    },
  };
}

export default defineConfig({
  root: at('src/web'),
  base: './',
  plugins: [
    filesInMemory(),
    svelte({ compilerOptions: { css: 'external' } }),
    ...(single ? [workersInside(), viteSingleFile()] : [offline()]),
  ],
  resolve: { alias: { 'csv-parse/sync': 'csv-parse/browser/esm/sync' } },
  worker: {
    // A page from a file may start workers from scripts in memory, but not from modules.
    format: single ? 'iife' : 'es',
    plugins: () => [filesInMemory()],
    rolldownOptions: { output: { codeSplitting: !single } },
  },
  build: {
    outDir: at(single ? 'dist/single' : 'dist/web'),
    emptyOutDir: true,
    target: 'es2023',
    assetsInlineLimit: single ? Number.POSITIVE_INFINITY : 0,
  },
  assetsInclude: ['**/*.nc', '**/*.geojson', '**/*.csv', '**/*.yaml'],
});
