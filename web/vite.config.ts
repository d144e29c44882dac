import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** Builds the page into dist/web, where the server finds it. Nothing is inlined: the content policy allows files only. */
export default defineConfig({
  root: here('.'),
  publicDir: here('./public'),
  cacheDir: here('../node_modules/.vite-web'),
  // the page reads adjustments too: in a browser there are no buffers of Node
  resolve: { alias: { 'csv-parse/sync': 'csv-parse/browser/esm/sync' } },
  build: {
    outDir: here('../dist/web'),
    emptyOutDir: true,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    target: ['chrome123', 'firefox128', 'safari17.5'],
  },
  server: {
    port: 5173,
    strictPort: true,
    fs: { allow: [here('..')] },
    proxy: {
      '/api': {
        target: 'http://127.0.0.1:4173',
        changeOrigin: true,
        // The server takes writes from its own page only; behind this proxy the page is its own.
        configure: (proxy) => proxy.on('proxyReq', (request) => request.removeHeader('origin')),
      },
    },
  },
});
