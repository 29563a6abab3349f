import { mkdtempSync, rmSync } from 'node:fs'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import react from '@vitejs/plugin-react'
import { build } from 'vite'
import { LANGUAGE } from '../support/language.ts'
import { staticServer } from '../../scripts/build/staticServer.ts'

const ROOT = join(import.meta.dirname, '..', '..')
const PAGE = 'tests/ui/gallery/index.html'

export interface ServedGallery {
  readonly url: string
  close(): void
}

/** Builds the gallery with the screens as they stand, beside the product's own build and never in it, and serves it. */
export async function serveGallery(): Promise<ServedGallery> {
  const folder = mkdtempSync(join(tmpdir(), 'stillhand-gallery-'))
  await build({
    configFile: false,
    root: ROOT,
    logLevel: 'warn',
    plugins: [react()],
    build: {
      outDir: folder,
      emptyOutDir: false,
      copyPublicDir: false,
      target: 'es2022',
      minify: false,
      chunkSizeWarningLimit: 9000,
      rolldownOptions: { input: join(ROOT, PAGE) },
    },
  })
  const server = staticServer(folder)
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
  const { port } = server.address() as AddressInfo
  return {
    url: `http://localhost:${port}/${PAGE}${LANGUAGE === 'en' ? '' : `?language=${LANGUAGE}`}`,
    close: () => {
      server.closeAllConnections()
      server.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}
