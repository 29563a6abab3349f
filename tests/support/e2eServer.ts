import { existsSync } from 'node:fs'
import { join } from 'node:path'
import type { TestProject } from 'vitest/node'
import { staticServer } from '../../scripts/build/staticServer.ts'

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the built app is served, without a slash at the end. */
    readonly baseUrl: string
  }
}

/** Serves the built app on a free port for as long as the tests run. */
export async function setup(project: TestProject): Promise<() => Promise<void>> {
  const dist = join(import.meta.dirname, '..', '..', 'dist')
  if (!existsSync(join(dist, 'index.html'))) {
    throw new Error('The app is not built: run "npm run build" before "npm run test:e2e".')
  }
  const server = staticServer(dist)
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const address = server.address()
  if (typeof address !== 'object' || !address) throw new Error('The server has no port.')
  project.provide('baseUrl', `http://localhost:${address.port}`)
  return () =>
    new Promise((resolve) => {
      server.closeAllConnections()
      server.close(() => resolve())
    })
}
