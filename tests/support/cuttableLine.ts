import { once } from 'node:events'
import { connect, createServer, type Socket } from 'node:net'

/** The network of one device, which a test can cut. */
export interface CuttableLine {
  readonly port: number
  /** Every connection breaks, and none is made. */
  cut(): void
  mend(): void
  end(): Promise<void>
}

/** @param port on this machine, to which the line leads */
export async function cuttableLine(port: number): Promise<CuttableLine> {
  let isCut = false
  const sockets = new Set<Socket>()
  const keep = (socket: Socket, other: () => Socket): void => {
    sockets.add(socket)
    socket.on('error', () => undefined)
    socket.on('close', () => {
      sockets.delete(socket)
      other().destroy()
    })
  }
  const server = createServer((near) => {
    if (isCut) return void near.destroy()
    const far = connect(port, '127.0.0.1')
    keep(near, () => far)
    keep(far, () => near)
    near.pipe(far).pipe(near)
  }).listen(0, '127.0.0.1')
  await once(server, 'listening')
  const address = server.address()
  const cut = (): void => {
    isCut = true
    sockets.forEach((socket) => socket.destroy())
  }
  return {
    port: typeof address === 'object' && address ? address.port : 0,
    cut,
    mend: () => void (isCut = false),
    end: async () => {
      cut()
      server.close()
      await once(server, 'close')
    },
  }
}
