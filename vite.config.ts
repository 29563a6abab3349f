import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'
import { VitePWA } from 'vite-plugin-pwa'
import { copyFiles } from './scripts/build/copiedFiles.ts'
import { offline } from './scripts/build/offline.ts'
import { policyMeta } from './scripts/build/policyMeta.ts'

const root = import.meta.dirname

export default defineConfig({
  root,
  plugins: [react(), copyFiles(root), VitePWA(offline(root)), policyMeta()],
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
