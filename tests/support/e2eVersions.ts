import { mkdtempSync, renameSync, rmSync, symlinkSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build, type Plugin } from 'vite'
import { vi } from 'vitest'
import { staticServer } from '../../scripts/build/staticServer.ts'

const ROOT = join(import.meta.dirname, '..', '..')

/** Marks a build in every file of code, so that two builds of one source differ as two versions do. */
const marked = (version: string): Plugin => ({
  name: 'marked',
  renderChunk: (code) => `globalThis.stillhandVersion=${JSON.stringify(version)};${code}`,
})

async function buildVersion(version: string, outDir: string): Promise<void> {
  // The test runner's own value would make a build for development.
  vi.stubEnv('NODE_ENV', 'production')
  await build({
    configFile: join(ROOT, 'vite.config.ts'),
    root: ROOT,
    logLevel: 'error',
    plugins: [marked(version)],
    worker: { plugins: () => [marked(version)] },
    build: { outDir, emptyOutDir: true },
  })
  vi.unstubAllEnvs()
}

export interface ServedVersions {
  readonly address: string
  /** From now on the server has the files of this version only. */
  serve(version: 'old' | 'new'): void
  close(): Promise<void>
}

/** Two versions of the app, built from the same source, behind one address. */
export async function servedVersions(): Promise<ServedVersions> {
  const folder = mkdtempSync(join(tmpdir(), 'stillhand-versions-'))
  for (const version of ['old', 'new']) await buildVersion(version, join(folder, version))
  const served = join(folder, 'served')
  const serve = (version: string): void => {
    symlinkSync(join(folder, version), `${served}-next`)
    renameSync(`${served}-next`, served)
  }
  serve('old')
  const server = staticServer(served)
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const place = server.address()
  return {
    address: `http://localhost:${typeof place === 'object' && place ? place.port : 0}`,
    serve,
    close: async () => {
      server.closeAllConnections()
      await new Promise((resolve) => server.close(resolve))
      rmSync(folder, { recursive: true, force: true })
    },
  }
}
