import { createReadStream, existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Plugin } from 'vite'

/** Files that are served as they are: the recognizer from its package, and the models. */
export function copiedFiles(root: string): ReadonlyMap<string, string> {
  const vosk = join(root, 'node_modules', 'vosk-browser', 'dist')
  const models = join(root, 'models')
  const modelFiles = readdirSync(models).filter(
    (name) => /\.(tar\.gz|zip)$/.test(name) || name === 'manifest.json',
  )
  return new Map([
    ...['vosk.worker.js', 'vosk.wasm'].map((name) => [`vosk/${name}`, join(vosk, name)] as const),
    ...modelFiles.map((name) => [`models/${name}`, join(models, name)] as const),
  ])
}

const typeOf = (name: string): string =>
  name.endsWith('.js')
    ? 'text/javascript'
    : name.endsWith('.wasm')
      ? 'application/wasm'
      : name.endsWith('.json')
        ? 'application/json'
        : 'application/octet-stream'

/** Serves these files while developing and puts them beside the built page. */
export function copyFiles(root: string): Plugin {
  return {
    name: 'stillhand-copy-files',
    configureServer(server) {
      server.middlewares.use((request, response, next) => {
        const { pathname, searchParams } = new URL(request.url ?? '/', 'http://localhost')
        const name = pathname.slice(1)
        const file = copiedFiles(root).get(name)
        // A JSON file that the app imports is asked for with `?import`: Vite must make a module of it.
        if (!file || !existsSync(file) || searchParams.has('import')) {
          next()
          return
        }
        response.setHeader('Content-Type', typeOf(name))
        createReadStream(file).pipe(response)
      })
    },
    generateBundle() {
      for (const [fileName, file] of copiedFiles(root)) {
        this.emitFile({ type: 'asset', fileName, source: readFileSync(file) })
      }
    },
  }
}
