import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';
import { PACKED_ENDING } from './src/files/figure-ending.ts';
import { packFigure } from './src/files/figure-pack.ts';
import { readMesh } from './src/files/mesh/read.ts';

/** `figure.ply?packed` is the address of that figure as figure-pack.ts packs it. */
function packedFigures(): Plugin {
  return {
    name: 'packed-figures',
    enforce: 'pre',
    load(id) {
      const [file, query] = id.split('?');
      if (query !== 'packed') return null;
      const source = packFigure(readMesh(readFileSync(file), file));
      const ref = this.emitFile({ type: 'asset', name: basename(file).replace(/\.ply$/, PACKED_ENDING), source });
      return `export default import.meta.ROLLUP_FILE_URL_${ref};`;
    },
  };
}

/** The page. Its addresses are relative, so that it works from any folder of a server. */
export default defineConfig({
  root: new URL('src/', import.meta.url).pathname,
  base: './',
  publicDir: false,
  plugins: [react()],
  worker: { format: 'es', plugins: () => [packedFigures()] },
  build: {
    outDir: '../dist',
    emptyOutDir: true,
    // Small files too: the page's content policy lets nothing be fetched from a data: address.
    assetsInlineLimit: 0,
    target: 'es2022',
    // The preload helper's polyfill would be an inline script.
    modulePreload: { polyfill: false },
  },
});
