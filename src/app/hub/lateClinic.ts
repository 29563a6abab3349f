import { createEmitter } from '../../core/basics/emitter.ts'
import type { Clock } from '../../ports/clock.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { Clinic, ClinicView } from './clinic.ts'

/** What became of opening the clinic of this device. */
export type OpenedClinic =
  | { readonly kind: 'open'; readonly clinic: Clinic }
  /** A PIN keeps it: again when it was given. */
  | { readonly kind: 'locked' }
  /** What made it one of the clinic is no longer on this device: it has to join again. */
  | { readonly kind: 'lost' }

const AGAIN_ms = 5000

/**
 * The clinic of a device that has joined one, before its keys are there: with a PIN they come when it was given, and a
 * disk that does not answer is asked again. Until then the device works alone and says so.
 */
export function createLateClinic(open: () => Promise<OpenedClinic>, clock: Clock): Clinic {
  const changes = createEmitter<undefined>()
  let inner: Clinic | undefined
  let link: 'connecting' | 'locked' | 'alone' | 'lost' = 'connecting'
  let since_ms = clock.read().wall_ms
  let opening: Promise<void> | undefined
  /** Taken off this device meanwhile. */
  const erased: string[] = []

  function become(next: typeof link): void {
    if (next !== link) since_ms = clock.read().wall_ms
    link = next
    changes.emit(undefined)
  }

  async function tryOpen(): Promise<void> {
    try {
      const opened = await open()
      if (opened.kind !== 'open') return become(opened.kind)
      inner = opened.clinic
      inner.onChange(() => changes.emit(undefined))
      await inner.start()
      for (const drawId of erased.splice(0)) await inner.erased(drawId)
      changes.emit(undefined)
    } catch {
      become('alone')
      wakeIn(clock, AGAIN_ms, () => void start())
    }
  }
  function start(): Promise<void> {
    if (inner) return Promise.resolve()
    return (opening ??= tryOpen().finally(() => (opening = undefined)))
  }

  function view(): ClinicView | undefined {
    if (inner) return inner.view()
    if (link === 'locked') return undefined
    const none = { since_ms, coming_n: 0, waiting_n: 0, aside: [], notTaken: [], faults: [] }
    return link === 'lost'
      ? { ...none, link: 'refused', why: 'credentials' }
      : { ...none, link: link === 'alone' ? 'alone' : 'connecting' }
  }

  return {
    start,
    view,
    // Of a clinic that is lost nothing is here any more.
    isRead: () => inner?.isRead() ?? link === 'lost',
    dayEntries: () => inner?.dayEntries() ?? [],
    draws: () => inner?.draws() ?? [],
    load: (drawId) => inner?.load(drawId),
    claim: (what) => inner?.claim(what) ?? Promise.resolve({ kind: 'alone' }),
    takeOver: (drawId) =>
      inner?.takeOver(drawId) ?? Promise.resolve({ kind: 'refused', why: 'alone' }),
    wrote: (log) => inner?.wrote(log),
    erased: async (drawId) => {
      if (inner) return inner.erased(drawId)
      erased.push(drawId)
    },
    forget: () => inner?.forget(),
    remember: () => (inner ? inner.remember() : void start()),
    onChange: changes.observe,
  }
}
