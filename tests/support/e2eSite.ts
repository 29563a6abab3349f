import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { SITE_FILES } from '../../scripts/build/siteFiles.ts'
import { staticServer } from '../../scripts/build/staticServer.ts'

const ROOT = join(import.meta.dirname, '..', '..')

/** The app as a site with files of its own builds it, served. */
export interface ServedApp {
  readonly baseUrl: string
  end(): void
}

/**
 * Builds the app with the site's files, as `npm run build` does, and serves it under the policy that they make.
 * @throws Error where it cannot be built
 */
export async function serveSite(
  files: Readonly<Partial<Record<(typeof SITE_FILES)[number], string>>>,
): Promise<ServedApp> {
  const folder = mkdtempSync(join(tmpdir(), 'stillhand-site-'))
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text)
  const dist = join(folder, 'dist')
  const vite = join(ROOT, 'node_modules', 'vite', 'bin', 'vite.js')
  const build = spawn(process.execPath, [vite, 'build', '--logLevel', 'error', '--outDir', dist], {
    cwd: ROOT,
    env: { ...process.env, STILLHAND_SITE: folder, NODE_ENV: 'production' },
    stdio: ['ignore', 'ignore', 'inherit'],
  })
  const [code] = (await once(build, 'exit')) as [number | null]
  if (code !== 0) throw new Error('The app could not be built.')
  const server = staticServer(dist)
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const place = server.address()
  return {
    baseUrl: `http://localhost:${typeof place === 'object' && place ? place.port : 0}`,
    end: () => {
      server.closeAllConnections()
      server.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}
