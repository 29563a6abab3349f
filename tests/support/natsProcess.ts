import { spawn, type ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { connect as open, createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { findNatsServer, installNatsServer } from '../../scripts/hub/natsServer.ts'

/** The server that the tests run: found, or else installed. `undefined` where neither works; then tests are skipped. */
export const NATS_SERVER = findNatsServer() ?? installNatsServer()

/** A port nobody listens on. */
export async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1')
  await once(server, 'listening')
  const address = server.address()
  server.close()
  await once(server, 'close')
  return typeof address === 'object' && address ? address.port : 0
}

/** A nats-server in a folder of its own. */
export interface NatsProcess {
  readonly port: number
  readonly folder: string
  readonly start: () => Promise<void>
  /** Ends it in the middle of what it does. */
  readonly kill: () => Promise<void>
  /** It takes connections and answers nothing. */
  readonly freeze: () => Promise<void>
  readonly thaw: () => void
  /** Keeps the disk as it is now; the returned function puts it back, with the server stopped. */
  copyDisk(): Promise<() => void>
  readonly remove: () => Promise<void>
}

/** @param configuration its text, by port and folder of the data */
export async function natsProcess(
  configuration: (port: number, store: string) => string,
  given?: { readonly port?: number; readonly folder?: string },
): Promise<NatsProcess> {
  if (!NATS_SERVER) throw new Error('No nats-server')
  const binary = NATS_SERVER.path
  const port = given?.port ?? (await freePort())
  const folder = given?.folder ?? mkdtempSync(join(tmpdir(), 'stillhand-nats-'))
  const store = join(folder, 'data')
  const file = join(folder, 'hub.conf')
  let child: ChildProcess | undefined
  // Where the test or the bench dies, nothing is left running.
  const onExit = (): void => void child?.kill('SIGKILL')
  process.once('exit', onExit)

  const isListening = (): Promise<boolean> =>
    new Promise((resolve) => {
      const socket = open(port, '127.0.0.1')
      socket.once('data', () => void (socket.destroy(), resolve(true)))
      socket.once('error', () => resolve(false))
      socket.once('close', () => resolve(false))
    })
  const kill = async (): Promise<void> => {
    const dying = child
    child = undefined
    if (!dying || dying.exitCode !== null) return
    dying.kill('SIGKILL')
    await once(dying, 'exit')
  }
  /** The other cores may go on for a moment after the signal. */
  const freeze = async (): Promise<void> => {
    child?.kill('SIGSTOP')
    await sleep(200)
  }
  return {
    port,
    folder,
    async start() {
      writeFileSync(file, configuration(port, store))
      const output = ['-l', join(folder, 'hub.log')]
      const started = spawn(binary, ['-c', file, ...output], { stdio: 'ignore' })
      child = started
      for (let tries = 0; !(await isListening()); tries++) {
        if (started.exitCode !== null || tries > 600) throw new Error(`It did not start: ${folder}`)
        await sleep(25)
      }
    },
    kill,
    freeze,
    thaw: () => void child?.kill('SIGCONT'),
    async copyDisk() {
      // What is on the disk while it stands still is what a power cut would leave.
      await freeze()
      const copy = mkdtempSync(join(tmpdir(), 'stillhand-copy-'))
      cpSync(store, join(copy, 'data'), { recursive: true })
      child?.kill('SIGCONT')
      return () => {
        rmSync(store, { recursive: true, force: true })
        cpSync(join(copy, 'data'), store, { recursive: true })
        rmSync(copy, { recursive: true, force: true })
      }
    },
    async remove() {
      child?.kill('SIGCONT')
      await kill()
      process.off('exit', onExit)
      rmSync(folder, { recursive: true, force: true })
    },
  }
}
