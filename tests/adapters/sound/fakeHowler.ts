/**
 * Stands in for howler where there is no loudspeaker: loads after a moment, plays for a fixed time, and tells of both
 * as howler 2.2.4 does with Web Audio (`play` one turn after the sound began; nothing at all after `stop`).
 */
export const LENGTH_s = 1.5
const LOAD_ms = 20

interface Options {
  readonly src: readonly string[]
  readonly onload: () => void
  readonly onplay: (id: number) => void
  readonly onend: (id: number) => void
  readonly onloaderror: () => void
}
type State = 'unloaded' | 'loading' | 'loaded'

let lastId = 1000
export const fake = {
  /** Paths now heard. */
  heard: new Set<Howl>(),
  /** Every path that began, in order. */
  begun: [] as string[],
  made: [] as Howl[],
  missing: new Set<string>(),
  /** Makes howler lose the end of a sound. */
  losesEnds: false,
}

type ContextState = 'running' | 'suspended' | 'closed'

/** How contexts made from now on answer when they are sent to an output; `none` cannot be. */
export const sinks = { manner: 'none' as 'none' | 'right' | 'lies' | 'refuses' | 'hangs' }

const newContext = () => ({
  state: 'running' as ContextState,
  sinkId: '',
  ...(sinks.manner !== 'none' && {
    setSinkId(this: { sinkId: string }, id: string): Promise<void> {
      if (sinks.manner === 'hangs') return new Promise(() => undefined)
      if (sinks.manner === 'refuses') return Promise.reject(new Error('NotAllowedError'))
      if (sinks.manner === 'right') this.sinkId = id
      return Promise.resolve()
    },
  }),
  waiting: [] as (() => void)[],
  watchers: [] as (() => void)[],
  addEventListener(_: 'statechange', watcher: () => void): void {
    this.watchers.push(watcher)
  },
  become(state: ContextState): void {
    this.state = state
    this.watchers.forEach((watcher) => watcher())
  },
  resume(): Promise<void> {
    if (this.state === 'closed') return Promise.reject(new Error('The context is closed.'))
    if (this.state === 'running') return Promise.resolve()
    return new Promise((resolve) => this.waiting.push(resolve))
  },
  gesture(): void {
    this.become('running')
    this.waiting.splice(0).forEach((resolve) => resolve())
  },
})

export const Howler = {
  usingWebAudio: true,
  autoSuspend: true,
  level: 1,
  ctx: newContext(),
  /** As howler does: every sound is let go, and the context made anew. */
  unload(): void {
    fake.made.forEach((howl) => howl.unload())
    this.ctx = newContext()
  },
  volume(level?: number): number {
    this.level = level ?? this.level
    return this.level
  },
}

export class Howl {
  readonly path: string
  private readonly options: Options
  private now: State = 'loading'
  private readonly loads: (() => void)[] = []
  private timers = new Map<number, ReturnType<typeof setTimeout>>()

  constructor(options: Options) {
    this.options = options
    this.path = options.src[0]!.replace(/^.*\/(?=chimes|prompts)/, '')
    fake.made.push(this)
    setTimeout(() => {
      if (fake.missing.has(this.path)) return options.onloaderror()
      this.now = 'loaded'
      options.onload()
      this.loads.splice(0).forEach((run) => run())
    }, LOAD_ms)
  }

  state(): State {
    return this.now
  }

  duration(): number {
    return LENGTH_s
  }

  once(event: 'load' | 'unlock', run: () => void): void {
    if (event === 'load') this.loads.push(run)
  }

  play(): number {
    const id = ++lastId
    fake.heard.add(this)
    fake.begun.push(this.path)
    setTimeout(() => this.options.onplay(id), 0)
    const end = (): void => {
      this.stop(id)
      this.options.onend(id)
    }
    this.timers.set(id, setTimeout(fake.losesEnds ? () => undefined : end, LENGTH_s * 1000))
    return id
  }

  stop(id?: number): void {
    for (const [one, timer] of [...this.timers]) {
      if (id !== undefined && one !== id) continue
      clearTimeout(timer)
      this.timers.delete(one)
    }
    if (this.timers.size === 0) fake.heard.delete(this)
  }

  playing(): boolean {
    return this.timers.size > 0
  }

  unload(): void {
    this.stop()
    this.now = 'unloaded'
  }
}

export function resetHowler(): void {
  fake.heard.clear()
  fake.begun.length = 0
  fake.made.length = 0
  fake.missing.clear()
  fake.losesEnds = false
  Howler.ctx = newContext()
  Howler.level = 1
}
