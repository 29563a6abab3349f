import { build } from 'vite'

/** Bundles a page's script, with all it imports, into `page.js` and its parts under `folder`. */
export async function bundlePage(entry: string, folder: string): Promise<void> {
  await build({
    configFile: false,
    root: folder,
    logLevel: 'error',
    publicDir: false,
    build: {
      outDir: folder,
      emptyOutDir: false,
      target: 'es2022',
      minify: false,
      modulePreload: { polyfill: false },
      rollupOptions: { input: entry, output: { entryFileNames: 'page.js' } },
    },
  })
}
