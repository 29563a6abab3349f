import { CLOCK_KINDS, isCueOf, type ClockKind, type CueName } from './clockTable.ts'

/** Which clock: the same after a reload, another after a start said anew. */
export interface ClockRef {
  readonly kind: ClockKind
  /** Which of its kind: the band's or puncture's number, or the tube's id; none where only one can run. */
  readonly ordinal?: string
  /** Charted time of its start, Unix ms. */
  readonly from_ms: number
}

/** Which call of a clock. */
export interface CueRef extends ClockRef {
  readonly cue: CueName
  /**
   * Which repetition of its last cue: counted from that, or, where how long it runs is not known, the beat of the
   * page's own clock.
   */
  readonly repeat?: number | { readonly boot: string; readonly beat: number }
}

/** A cue as the log holds it: `band#2@1764057600000` and `up+3`. */
export interface StoredCue {
  readonly clock: string
  readonly cue: string
}

/** `band#2@1764057600000`; `faint#1764057600000` where only one can run. */
export function clockId({ kind, ordinal, from_ms }: ClockRef): string {
  return `${kind}#${ordinal === undefined ? '' : `${ordinal}@`}${from_ms}`
}

export function writeCue(ref: CueRef): StoredCue {
  const { cue, repeat } = ref
  const times = typeof repeat === 'object' ? `${repeat.boot}.${repeat.beat}` : repeat
  return { clock: clockId(ref), cue: times === undefined ? cue : `${cue}+${times}` }
}

/** Reads a cue of the log; `undefined` where no clock of this version gives it. */
export function readCue({ clock, cue }: StoredCue): CueRef | undefined {
  const ref = readClock(clock)
  const [, name = '', times] = /^([^+]*)(?:\+(.*))?$/s.exec(cue) ?? []
  if (!ref || !isCueOf(ref.kind, name)) return undefined
  if (times === undefined) return { ...ref, cue: name }
  const repeat = readRepeat(times)
  return repeat === undefined ? undefined : { ...ref, cue: name, repeat }
}

/** One text for one cue, to know it again. */
export function cueKey({ clock, cue }: StoredCue): string {
  return `${clock}/${cue}`
}

function readClock(text: string): ClockRef | undefined {
  const [, name, ordinal, from] = /^(\w+)#(?:(.*)@)?(-?\d+(?:\.\d+)?)$/s.exec(text) ?? []
  const kind = CLOCK_KINDS.find((each) => each === name)
  if (!kind) return undefined
  const from_ms = Number(from)
  return ordinal === undefined ? { kind, from_ms } : { kind, ordinal, from_ms }
}

function readRepeat(text: string): CueRef['repeat'] | undefined {
  if (/^\d+$/.test(text)) return Number(text)
  const [, boot, beat] = /^(.*)\.(\d+)$/s.exec(text) ?? []
  return boot === undefined ? undefined : { boot, beat: Number(beat) }
}
