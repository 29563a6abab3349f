import { cpSync, createReadStream, existsSync, mkdirSync, readdirSync, statSync } from 'node:fs'
import { join } from 'node:path'
import react from '@vitejs/plugin-react'
import { defineConfig, type Plugin } from 'vite'

const RECOGNIZER = 'node_modules/vosk-browser/dist'

/** What the recognizer loads by address: its worker, its wasm, and the models. */
function recognizerFiles(): Plugin {
  const files = (): [string, string][] => [
    ['vosk/vosk.worker.js', join(RECOGNIZER, 'vosk.worker.js')],
    ['vosk/vosk.wasm', join(RECOGNIZER, 'vosk.wasm')],
    ...readdirSync('models')
      .filter((name) => /\.(tar\.gz|zip|json)$/.test(name))
      .map((name): [string, string] => [`models/${name}`, join('models', name)]),
  ]
  const types: Record<string, string> = {
    js: 'text/javascript',
    wasm: 'application/wasm',
    json: 'application/json',
  }
  return {
    name: 'recognizer-files',
    configureServer(server) {
      server.middlewares.use((request, response, next) => {
        const path = (request.url ?? '').split('?')[0]?.slice(1)
        const found = files().find(([to]) => to === path)
        if (!found || !existsSync(found[1])) return next()
        response.setHeader(
          'Content-Type',
          types[path?.split('.').at(-1) ?? ''] ?? 'application/octet-stream',
        )
        response.setHeader('Content-Length', statSync(found[1]).size)
        createReadStream(found[1]).pipe(response)
      })
    },
    writeBundle({ dir }) {
      for (const [to, from] of files()) {
        const target = join(dir ?? 'dist', to)
        mkdirSync(join(target, '..'), { recursive: true })
        cpSync(from, target)
      }
    },
  }
}

export default defineConfig({
  base: './',
  plugins: [react(), recognizerFiles()],
  worker: { format: 'es' },
  build: { target: 'es2023', sourcemap: false, assetsInlineLimit: 0 },
})
