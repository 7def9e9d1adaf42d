import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vite';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** Lists what the page is made of, so that a device can keep all of it for when the network is gone. */
const listOfFiles: Plugin = {
  name: 'list-of-files',
  generateBundle(_options, bundle) {
    const files = Object.keys(bundle).filter((name) => name.startsWith('assets/'));
    this.emitFile({ type: 'asset', fileName: 'files.json', source: JSON.stringify(files.map((name) => `/${name}`)) });
  },
};

export default defineConfig({
  root: here('.'),
  publicDir: here('public'),
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  plugins: [listOfFiles],
  worker: { format: 'es' },
  build: {
    outDir: here('../../dist'),
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rollupOptions: {
      checks: { pluginTimings: false },
      input: { page: here('index.html'), 'service-worker': here('service-worker.ts') },
      output: {
        entryFileNames: ({ name }) => (name === 'service-worker' ? 'service-worker.js' : 'assets/[name]-[hash].js'),
      },
    },
  },
});
