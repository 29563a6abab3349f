/** The server binary: which version, where it is looked for, and how it is installed. */
import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { homedir } from 'node:os'
import { delimiter, join } from 'node:path'

/** The version that the tests run against; see `hub/README.md` for why no older one will do. */
const NATS_VERSION = '2.15.2'
const MODULE = `github.com/nats-io/nats-server/v2@v${NATS_VERSION}`
/** `sync_interval: always` came with 2.10, what a comparison among subjects needs with 2.12. */
const LEAST = [2, 12] as const

const NAME = process.platform === 'win32' ? 'nats-server.exe' : 'nats-server'
/** Kept between runs and outside the project. */
const KEPT = join(
  process.env.XDG_CACHE_HOME ?? join(homedir(), '.cache'),
  'stillhand',
  `nats-server-${NATS_VERSION}`,
)

export interface FoundServer {
  readonly path: string
  readonly version: string
}

/** The version of a binary that is new enough. */
function usable(path: string): FoundServer | undefined {
  if (!existsSync(path)) return undefined
  const { stdout, status } = spawnSync(path, ['--version'], { encoding: 'utf8', timeout: 10_000 })
  const version = /v(\d+)\.(\d+)\.\d+\S*/.exec(stdout ?? '')
  if (status !== 0 || !version) return undefined
  const [major, minor] = [Number(version[1]), Number(version[2])]
  const isNewEnough = major > LEAST[0] || (major === LEAST[0] && minor >= LEAST[1])
  return isNewEnough ? { path, version: version[0].slice(1) } : undefined
}

const goPath = (): string | undefined => {
  const { stdout, status } = spawnSync('go', ['env', 'GOPATH'], { encoding: 'utf8' })
  return status === 0 && stdout.trim() ? stdout.trim() : undefined
}

/** `STILLHAND_NATS`, then what was installed here, then the search path, then Go's own folder. */
export function findNatsServer(): FoundServer | undefined {
  const named = process.env.STILLHAND_NATS
  if (named) return usable(named)
  const go = goPath()
  const folders = [
    KEPT,
    ...(process.env.PATH ?? '').split(delimiter),
    ...(go ? [join(go, 'bin')] : []),
  ]
  for (const folder of folders.filter(Boolean)) {
    const found = usable(join(folder, NAME))
    if (found) return found
  }
  return undefined
}

/** Builds it from its source with Go, into a folder that is kept. */
export function installNatsServer(): FoundServer | undefined {
  const env = { ...process.env, GOBIN: KEPT }
  const made = spawnSync('go', ['install', MODULE], { env, stdio: 'ignore', timeout: 900_000 })
  return made.status === 0 ? usable(join(KEPT, NAME)) : undefined
}

/** What to do where there is none. */
export const NATS_NEEDED = `No nats-server of ${LEAST.join('.')} or newer was found. Install Go and run
  go install ${MODULE}
or name a binary with STILLHAND_NATS.`
