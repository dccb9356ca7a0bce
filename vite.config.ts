import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

/** The page. Its addresses are relative, so that it works from any folder of a server. */
export default defineConfig({
  root: new URL('src/', import.meta.url).pathname,
  base: './',
  publicDir: false,
  plugins: [react()],
  worker: { format: 'es' },
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
