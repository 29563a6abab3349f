/** `npm start` after the build: serves `dist` to this machine only, on a fixed port. */
import { existsSync } from 'node:fs'
import { join } from 'node:path'
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

const server = staticServer(root)
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
  console.log(`Stillhand is at http://localhost:${used}/ (this machine only; end it with Ctrl+C)`)
})

function stop(message: string): never {
  console.error(message)
  process.exit(1)
}
