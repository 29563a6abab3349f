/**
 * `npm start` after the build: serves `dist` to this machine only, on a fixed port. `PORT` is another port,
 * `STILLHAND_HOSTS` names (with commas) beside localhost; with `STILLHAND_MOVED` records are kept here from now on.
 */
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { hostsFrom } from './build/hosts.ts'
import { keptElsewhere } from './build/keptAt.ts'
import { staticServer } from './build/staticServer.ts'

const DEFAULT_PORT = 4173
const HOST = '127.0.0.1'

const root = join(import.meta.dirname, '..', 'dist')
const port = Number(process.env.PORT ?? DEFAULT_PORT)

if (!Number.isInteger(port) || port < 0 || port > 65535) {
  stop(`PORT must be a number from 0 to 65535, not "${process.env.PORT ?? ''}".`)
}
if (!existsSync(join(root, 'index.html'))) {
  stop('There is nothing to serve yet: run "npm run build" first.')
}

/** Where the app was served first; beside `dist`, which every build empties. */
const KEPT_FILE = join(root, '..', '.served-at')
const hosts = hostsFrom(process.env.STILLHAND_HOSTS ?? '')
const isMoved = process.env.STILLHAND_MOVED !== undefined
let keptAt: string | undefined

const server = staticServer(root, { hosts, keptAt: () => keptAt })
server.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EADDRINUSE') {
    stop(
      `Port ${port} is taken by another program. End that program. The browser keeps records by address: ` +
        `at another port the app begins empty, and the records kept at http://localhost:${port}/ are not seen there.`,
    )
  }
  stop(error.message)
})
server.listen(port, HOST, () => {
  const address = server.address()
  const used = typeof address === 'object' && address ? address.port : port
  const here = `http://localhost:${used}/`
  console.log(`Stillhand is at ${here} (this machine only; end it with Ctrl+C)`)
  // A port that the system chose is another one each time.
  if (port !== 0) keptAt = keptElsewhere(KEPT_FILE, here, isMoved)
  if (keptAt !== undefined) {
    console.log(
      `Records of this app are kept at ${keptAt} and are not seen at ${here}. End this and start it at that port; ` +
        'or, to keep records here from now on, start it once with STILLHAND_MOVED=1.',
    )
  }
})

function stop(message: string): never {
  console.error(message)
  process.exit(1)
}
