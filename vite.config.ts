import { join } from 'node:path'
import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'
import { VitePWA } from 'vite-plugin-pwa'
import { copyFiles } from './scripts/build/copiedFiles.ts'
import { offline } from './scripts/build/offline.ts'
import { policyMeta } from './scripts/build/policyMeta.ts'
import { siteBeside } from './scripts/build/siteBeside.ts'
import { siteConnects } from './scripts/build/siteFiles.ts'

const root = import.meta.dirname
/** What a site puts beside the app; the folder may be another one. */
const site = process.env.STILLHAND_SITE ?? join(root, 'site')
const { connect, faults } = siteConnects(site)
for (const fault of faults) console.warn(fault)

export default defineConfig({
  root,
  plugins: [
    react(),
    copyFiles(root),
    VitePWA(offline(root, connect)),
    siteBeside(site),
    policyMeta(connect),
  ],
  // Its build finds the worker by URL, so it must not be bundled into the dependency cache.
  optimizeDeps: { exclude: ['vosk-browser'] },
  server: { host: '127.0.0.1', port: 5173 },
  build: {
    target: 'es2022',
    // The policy allows no data: addresses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 900,
  },
})
