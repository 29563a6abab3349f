import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Plugin } from 'vite'
import { SITE_FILES } from './siteFiles.ts'

/** Puts the site's files beside the built page, and serves them while developing. */
export function siteBeside(folder: string): Plugin {
  const there = () => SITE_FILES.filter((name) => existsSync(join(folder, name)))
  return {
    name: 'stillhand-site-beside',
    configureServer(server) {
      server.middlewares.use((request, response, next) => {
        const { pathname } = new URL(request.url ?? '/', 'http://localhost')
        const name = there().find((each) => pathname === `/${each}`)
        if (name === undefined) return next()
        response.setHeader('Content-Type', 'application/json')
        response.end(readFileSync(join(folder, name)))
      })
    },
    generateBundle() {
      for (const fileName of there()) {
        this.emitFile({ type: 'asset', fileName, source: readFileSync(join(folder, fileName)) })
      }
    },
  }
}
