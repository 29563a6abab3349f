import type { BrowserContext } from 'playwright-core'
import { recordSounds } from '../support/e2eSounds.ts'

/** What a fault does to the database, at the methods of the browser. */
export type DiskMode = 'well' | 'full' | 'aborts' | 'readFails' | 'refused'

/** What the tests can do inside a page, and what they read there. */
export interface FaultTools {
  /** Chimes truly played, on a clock that no fault moves. */
  readonly chimes: { readonly name: string; readonly real_ms: number }[]
  readonly contexts: AudioContext[]
  readonly workers: { readonly url: string; readonly worker: Worker }[]
  readonly tracks: MediaStreamTrack[]
  readonly databases: IDBDatabase[]
  disk: DiskMode
  /** So often the disk went wrong as asked. */
  hits: number
  prints: number
  /** Moves what the page reads of both clocks. */
  moveClocks(wall_ms: number, mono_ms: number): void
}

export interface FaultWindow extends Window {
  stillhandFaults?: FaultTools
  stillhandPlayed?: { push(row: { readonly path: string }): number }
}

/** Puts the tools into every page of the context, before the app's own scripts. */
export async function installTools(context: BrowserContext): Promise<void> {
  // Loaders that keep the names of functions call this where they are written; a page has no such thing.
  await context.addInitScript({ content: 'globalThis.__name = (it) => it' })
  await recordSounds(context)
  await context.addInitScript(toolsInPage)
}

/* eslint-disable @typescript-eslint/unbound-method -- the page's own methods are wrapped and called with their object */
function toolsInPage(): void {
  const realDate = Date
  const realNow = (): number => realDate.now()
  const realMono = performance.now.bind(performance)
  let wall_ms = 0
  let mono_ms = 0
  const tools: FaultTools = {
    chimes: [],
    contexts: [],
    workers: [],
    tracks: [],
    databases: [],
    disk: 'well',
    hits: 0,
    prints: 0,
    moveClocks: (wall, mono) => {
      wall_ms += wall
      mono_ms += mono
    },
  }
  const page = window as FaultWindow
  page.stillhandFaults = tools

  const played = page.stillhandPlayed
  if (played) {
    const push = played.push.bind(played)
    played.push = (row) => {
      const name = /^\/chimes\/(\w+)\./.exec(row.path)?.[1]
      if (name !== undefined) tools.chimes.push({ name, real_ms: realNow() })
      return push(row)
    }
  }

  performance.now = () => realMono() + mono_ms
  window.Date = new Proxy(realDate, {
    construct: (target, args: unknown[]) =>
      Reflect.construct(target, args.length === 0 ? [realNow() + wall_ms] : args) as Date,
    get: (target, key, receiver): unknown =>
      key === 'now' ? () => realNow() + wall_ms : Reflect.get(target, key, receiver),
  })

  window.AudioContext = new Proxy(AudioContext, {
    construct: (target, args: unknown[]) => {
      const made = Reflect.construct(target, args) as AudioContext
      tools.contexts.push(made)
      return made
    },
  })
  window.Worker = new Proxy(Worker, {
    construct: (target, args: unknown[]) => {
      const worker = Reflect.construct(target, args) as Worker
      tools.workers.push({ url: String(args[0]), worker })
      return worker
    },
  })
  if (navigator.mediaDevices) {
    const ask = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices)
    navigator.mediaDevices.getUserMedia = async (constraints) => {
      const stream = await ask(constraints)
      tools.tracks.push(...stream.getAudioTracks())
      return stream
    }
  }
  window.print = () => void tools.prints++

  const fail = (name: string): never => {
    tools.hits++
    throw new DOMException('as the test asked', name)
  }
  const store = IDBObjectStore.prototype
  for (const method of ['add', 'put'] as const) {
    const write = store[method]
    store[method] = function (this: IDBObjectStore, ...args: Parameters<typeof write>) {
      if (tools.disk === 'full') return fail('QuotaExceededError')
      const request = write.apply(this, args)
      if (tools.disk === 'aborts') {
        tools.hits++
        this.transaction.abort()
      }
      return request
    }
  }
  for (const method of ['get', 'getAll', 'openCursor', 'getAllKeys'] as const) {
    const read = store[method] as (this: IDBObjectStore, ...args: unknown[]) => IDBRequest
    Object.assign(store, {
      [method]: function (this: IDBObjectStore, ...args: unknown[]) {
        return tools.disk === 'readFails' ? fail('UnknownError') : read.apply(this, args)
      },
    })
  }
  const open = IDBFactory.prototype.open
  IDBFactory.prototype.open = function (this: IDBFactory, ...args: Parameters<typeof open>) {
    if (tools.disk === 'refused') return fail('SecurityError')
    const request = open.apply(this, args)
    request.addEventListener('success', () => tools.databases.push(request.result))
    return request
  }
}
/* eslint-enable @typescript-eslint/unbound-method */
