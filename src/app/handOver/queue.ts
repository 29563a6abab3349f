import { createLooks } from '../../core/basics/looks.ts'
import type { HandOverRow, LeftAnswer, Leaving } from '../../core/handOver/handOverRow.ts'
import type { ServerAnswer } from '../../core/handOver/serverAnswer.ts'
import { waitFor_ms, type WaitLimits } from '../../core/handOver/waitFor.ts'
import type { Clock } from '../../ports/clock.ts'
import type { DrawLock } from '../../ports/drawLock.ts'
import type { HandOverStore, KeptRow } from '../../ports/handOverStore.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { RecordServer } from '../../ports/recordServer.ts'
import type { HandOverJob, Made } from './handOverJob.ts'

/** Limits of handing over; the site's data file says them. */
export interface QueueLimits extends WaitLimits {
  /** So often what another page or the bench did is looked for. */
  readonly lookEvery_s: number
  /** So often the same is sent again at once where the server says that others write it too. */
  readonly conflictTries: number
  readonly conflictWait_s: number
  /** So many leavings are kept. */
  readonly keptLeavings: number
}

export interface QueueDeps {
  readonly store: HandOverStore
  readonly server: RecordServer
  readonly clock: Clock
  readonly lock: Pick<DrawLock, 'hold'>
  readonly limits: QueueLimits
  /** From 0 up to and without 1. */
  readonly lot: () => number
  /** Everything that is to stand there; rejects as the store does. */
  readonly wanted: () => Promise<readonly HandOverJob[]>
  /** Whether a person wants it to go, and nothing here keeps it back: a draw that runs, a lock. */
  readonly may: () => Promise<boolean>
  readonly onChange: () => void
}

export type Trouble = Extract<ServerAnswer, { readonly kind: 'trouble' | 'conflict' }>

export interface QueueState {
  readonly isSending: boolean
  /** Another page of this device sends. */
  readonly isElsewhere: boolean
  /** What keeps everything back, and when it is tried again (ms since 1970 UTC). */
  readonly trouble: Trouble | undefined
  readonly next_ms: number | undefined
}

/**
 * Brings what is to stand at the record server there, one thing after another, always behind what is stored here. What
 * is wanted is worked out anew each time, so that nothing can be forgotten: a row only says how far it came. What it
 * sends may be sent any number of times; a lost answer or a page that dies costs one more sending and no more.
 */
export interface Queue {
  start(): void
  stop(): void
  /** A person wants it, or the network is back: it is looked after now, whatever wait there was. */
  readonly lookNow: () => void
  /** Something was written: looked after now, unless something keeps everything back. */
  readonly noticeWritten: () => void
  state(): QueueState
}

const IDLE: QueueState = {
  isSending: false,
  isElsewhere: false,
  trouble: undefined,
  next_ms: undefined,
}

export function createQueue(deps: QueueDeps): Queue {
  const { store, server, clock, lock, limits } = deps
  let state = IDLE
  let failures = 0
  /** Of what left from this page. */
  let count = 0
  let isOn = false
  let cancel: (() => void) | undefined
  /** What this page has made ready and the site had not set is made ready once more by each page. */
  const triedHere = new Set<string>()
  /** How often each has failed on this page: what a server stumbles over must not keep back all others. */
  const failed = new Map<string, number>()

  function show(change: Partial<QueueState>): void {
    state = { ...state, ...change }
    deps.onChange()
  }

  const sleep = (wait_s: number): Promise<void> =>
    new Promise((done) => void wakeIn(clock, wait_s * 1000, done))

  /** Puts a row as `change` makes it of what stands there now; nothing where another page has changed it. */
  async function put({ revision, row }: KeptRow, change: Partial<HandOverRow>): Promise<boolean> {
    const { refusal: _refusal, by: _by, ...rest } = row
    const since_ms = clock.read().wall_ms
    const done = await store.swap(revision, { ...rest, since_ms, ...change })
    if (done) deps.onChange()
    return done
  }

  async function leave(job: HandOverJob, made: Ready): Promise<ServerAnswer> {
    const { wall_ms: at_ms, offset_min } = clock.read()
    const lot = String(Math.floor(deps.lot() * 1e6)).padStart(6, '0')
    const leaving: Leaving = {
      id: `${String(at_ms).padStart(16, '0')}-${String((count += 1)).padStart(6, '0')}-${lot}`,
      ...{ at_ms, offset_min, kind: job.kind, about: job.about, key: job.key, hash: made.hash },
      size_B: new TextEncoder().encode(made.body).length,
      server: server.address,
      answer: 'unanswered',
    }
    // Before: whatever happens to this page now, it is told that it left.
    await store.note(leaving, limits.keptLeavings)
    const answer = await made.send(server)
    const status = answer.status === undefined ? {} : { status: answer.status }
    await store.note({ ...leaving, answer: leftAnswer(answer), ...status }, limits.keptLeavings)
    return answer
  }

  async function isAsItWas({ row, revision }: KeptRow): Promise<boolean> {
    return (await store.rows()).some(
      (each) => each.row.key === row.key && each.revision === revision,
    )
  }

  /** Sends until it is not a conflict any more, or often enough. */
  async function send(job: HandOverJob, made: Ready, kept: KeptRow): Promise<ServerAnswer> {
    for (let tries = 1; ; tries++) {
      const answer = await leave(job, made)
      if (answer.kind !== 'conflict' || tries >= limits.conflictTries) return answer
      await sleep(limits.conflictWait_s * (0.5 + deps.lot()))
      // Meanwhile a draw may have begun, or somebody may have pressed pause or said that it is not to go.
      if (!isOn || !(await deps.may()) || !(await isAsItWas(kept))) return answer
    }
  }

  /** Whether this very content was taken since the row was written last: its page died before it could say so. */
  async function wasTaken({ row }: KeptRow, hash: string): Promise<boolean> {
    const left = await store.leavings()
    return left.some(
      (each) =>
        each.key === row.key &&
        each.hash === hash &&
        each.server === server.address &&
        each.answer === 'done' &&
        each.at_ms >= row.since_ms,
    )
  }

  /** Answers what keeps everything back. */
  async function bring(job: HandOverJob, kept: KeptRow): Promise<Trouble | undefined> {
    const { key, mark } = job
    const { row } = kept
    const made = await job.make()
    triedHere.add(key)
    if (made.kind === 'gone') return undefined
    if (made.kind === 'broughtIn') {
      await put(kept, { state: 'broughtIn', mark })
      return undefined
    }
    if (made.kind === 'refused') {
      await put(kept, { state: 'refused', mark, refusal: made.refusal })
      return undefined
    }
    const { hash } = made
    const isSame = row.hash === hash && row.state !== 'waiting'
    if (isSame) {
      await store.swap(kept.revision, { ...row, mark })
      return undefined
    }
    const handedOver = { state: 'handedOver', mark, hash, server: server.address } as const
    if (await wasTaken(kept, hash)) {
      await put(kept, handedOver)
      return undefined
    }
    show({ isSending: true })
    const answer = await send(job, made, kept)
    switch (answer.kind) {
      case 'done':
        await put(kept, handedOver)
        return undefined
      case 'refused': {
        const { status, issues } = answer
        await put(kept, { state: 'refused', mark, hash, refusal: { by: 'server', status, issues } })
        return undefined
      }
      default:
        return answer
    }
  }

  /** A row for each thing that is wanted; new ones wait. */
  async function withRow(job: HandOverJob, known: KeptRow | undefined): Promise<KeptRow> {
    if (known) return known
    const { key, kind, about, mark } = job
    const since_ms = clock.read().wall_ms
    const row: HandOverRow = { key, kind, about, mark, hash: '', state: 'waiting', since_ms }
    await store.swap(0, row)
    return { row, revision: 1 }
  }

  function isToBring({ mark, key }: HandOverJob, { row }: KeptRow): boolean {
    if (row.state === 'waiting') return true
    if (row.state === 'dropped' || row.state === 'broughtIn') return false
    if (row.state === 'refused' && row.refusal?.by === 'device' && !triedHere.has(key)) return true
    return row.mark !== mark
  }

  async function look(): Promise<void> {
    const failedOf = ({ key }: HandOverJob): number => failed.get(key) ?? 0
    const jobs = (await deps.wanted()).toSorted((a, b) => failedOf(a) - failedOf(b))
    const rows = new Map((await store.rows()).map((kept) => [kept.row.key, kept]))
    for (const job of jobs) {
      const kept = await withRow(job, rows.get(job.key))
      if (!isToBring(job, kept)) continue
      // What keeps it back may have come meanwhile: a draw was begun, somebody pressed pause.
      if (!isOn || !(await deps.may())) return
      const trouble = await bring(job, kept)
      if (!trouble) {
        failures = 0
        continue
      }
      failures++
      failed.set(job.key, failedOf(job) + 1)
      const asked_s = trouble.kind === 'trouble' ? trouble.retryAfter_s : undefined
      const wait_ms = waitFor_ms(failures, limits, deps.lot(), asked_s)
      show({ trouble, next_ms: clock.read().wall_ms + wait_ms })
      again(wait_ms)
      return
    }
    failures = 0
    show({ trouble: undefined, next_ms: undefined })
  }

  async function lookOnce(): Promise<void> {
    if (!(await deps.may())) return
    const held = await lock.hold('hand-over', () => undefined)
    if (!held) {
      show({ isElsewhere: true })
      return
    }
    try {
      if (state.isElsewhere) show({ isElsewhere: false })
      await look()
    } finally {
      held.release()
      if (state.isSending) show({ isSending: false })
    }
  }

  function again(wait_ms: number): void {
    cancel?.()
    cancel = wakeIn(clock, wait_ms, () => lookSoon())
  }

  // A disk that does not answer is told by whoever writes to it; here the next look must do.
  const lookSoon = createLooks(
    () => {
      again(limits.lookEvery_s * 1000)
      return lookOnce()
    },
    () => isOn,
  )

  return {
    start: () => {
      if (isOn) return
      isOn = true
      lookSoon()
    },
    stop: () => {
      isOn = false
      cancel?.()
      state = IDLE
    },
    lookNow: lookSoon,
    noticeWritten: () => {
      if (!state.trouble) lookSoon()
    },
    state: () => state,
  }
}

/** What is told of something that left: only what is known. */
function leftAnswer(answer: ServerAnswer): LeftAnswer {
  if (answer.kind !== 'trouble') return answer.kind
  if (answer.access !== undefined) return 'unsent'
  // It may have come there all the same.
  return answer.why === 'silent' || answer.why === 'unreachable' ? 'unanswered' : 'trouble'
}

type Ready = Extract<Made, { readonly kind: 'ready' }>
