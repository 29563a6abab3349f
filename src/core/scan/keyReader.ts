import { isComplete, judgeBurst, type Burst, type ScanMarks, type Verdict } from './judgeBurst.ts'
import { byPlace, characterOf, digitOf, keyId, type Stroke } from './strokes.ts'

/** Characters not further apart than this belong together; the slowest scanners take 300 ms from one to the next. */
export const BURST_ms = 400
/** A digit waits this long to see whether a scanner is behind it. A person does not notice; see `TAP_ms`. */
export const DIGIT_WAIT_ms = 120
/**
 * A finger holds a key longer than this; a scanner lets go within a few ms, however slowly it goes on. A digit let go
 * sooner waits the whole `BURST_ms`. (Both figures: common practice with USB keyboards, no source.)
 */
export const TAP_ms = 40
/** A held key is reported again within this time; after a longer silence its coming up was only not seen. */
const REPEAT_ms = 1200

interface Typed {
  readonly written: string
  readonly placed: string
  readonly at_ms: number
}

/** What the keys have said so far and not yet meant. */
export interface KeyReader {
  readonly burst: readonly Typed[]
  /** The one digit in the burst, while it is alone: it may be a choice. */
  readonly digit?: { readonly value: string; readonly id: string; readonly up_ms?: number }
  /** The key that went down last and has not come up, with the last time that it was reported. */
  readonly held?: { readonly id: string; readonly at_ms: number }
  /** When a burst ended with Enter or Tab: scanners that send two end signs mean one. */
  readonly ended_ms?: number
}

export const NO_KEYS: KeyReader = { burst: [] }

export type KeyAct =
  /** `Space` (main choice; Enter too), `Backspace` (go back) or a digit. */
  { readonly kind: 'choose'; readonly key: string } | Exclude<Verdict, { readonly kind: 'nothing' }>

export interface KeyReading {
  readonly reader: KeyReader
  readonly acts: readonly KeyAct[]
  /** The stroke is used up: whatever has the focus must not have it as well. */
  readonly used: boolean
  /** When to ask again with `afterQuiet`, on the clock of events; none while nothing is open. */
  readonly wake_ms?: number
}

/**
 * A key goes down. A key that is held counts once, whether the machine marks its repeats or not.
 * @param free a person may press this key for the app: no button has the focus that Space and Enter would press.
 */
export function keyDown(
  before: KeyReader,
  stroke: Stroke,
  marks: ScanMarks,
  free: boolean,
): KeyReading {
  const held = { id: keyId(stroke), at_ms: stroke.at_ms }
  if (stroke.repeat || isStillHeld(before, stroke)) {
    return reading({ ...before, held }, [], isOurs(stroke) ? 'used' : 'left')
  }
  // The timer may be late; what was quiet for long enough is over before this key counts.
  const settled = afterQuiet(before, stroke.at_ms, marks)
  const { burst } = settled.reader
  const reader: KeyReader = { ...settled.reader, held }
  const ends = stroke.key === 'Enter' || stroke.key === 'Tab'
  const { ended_ms = -Infinity } = reader
  if (ends && burst.length === 0 && stroke.at_ms - ended_ms <= BURST_ms) {
    return reading({ ...reader, ended_ms: stroke.at_ms }, settled.acts, 'used')
  }
  if (burst.length > 0 && stroke.key === ' ') {
    return reading(joined(reader, stroke, ' '), settled.acts, 'used')
  }
  if (burst.length > 0 && (ends || stroke.key === 'Backspace')) {
    const end = ends ? 'terminator' : 'broken'
    const acts = [...settled.acts, ...verdictOf(burst, end, stroke.at_ms, marks)]
    const over = { burst: [], held }
    return reading(ends ? { ...over, ended_ms: stroke.at_ms } : over, acts, 'used')
  }
  const character = characterOf(stroke) ?? (digitOf(stroke) && byPlace(stroke))
  if (character) return typed(reader, stroke, character, settled.acts, marks)
  if (stroke.key === 'Backspace') return chosen(reader, settled.acts, 'Backspace')
  if (free && (stroke.key === ' ' || stroke.key === 'Enter')) {
    return chosen(reader, settled.acts, 'Space')
  }
  return reading(reader, settled.acts, 'left')
}

/** A key comes up. How long a digit was held helps to tell a finger from a scanner. */
export function keyUp(before: KeyReader, stroke: Stroke): KeyReading {
  const id = keyId(stroke)
  const { held, digit, ...rest } = before
  const reader: KeyReader = {
    ...rest,
    ...(held && held.id !== id ? { held } : {}),
    ...(digit ? { digit: digit.id === id ? { ...digit, up_ms: stroke.at_ms } : digit } : {}),
  }
  return reading(reader, [], 'left')
}

/** Nothing came up to this time: a digit that stayed alone is a choice, a burst that broke off is judged. */
export function afterQuiet(before: KeyReader, now_ms: number, marks: ScanMarks): KeyReading {
  const due_ms = dueAt(before)
  if (due_ms === undefined || now_ms < due_ms) return reading(before, [], 'left')
  const { burst, digit, ...rest } = before
  const reader: KeyReader = { ...rest, burst: [] }
  if (digit) return reading(reader, [{ kind: 'choose', key: digit.value }], 'left')
  return reading(reader, verdictOf(burst, 'quiet', undefined, marks), 'left')
}

const isStillHeld = ({ held }: KeyReader, stroke: Stroke): boolean =>
  held?.id === keyId(stroke) && stroke.at_ms - held.at_ms <= REPEAT_ms

function typed(
  before: KeyReader,
  stroke: Stroke,
  character: string,
  acts: readonly KeyAct[],
  marks: ScanMarks,
): KeyReading {
  const value = before.burst.length === 0 ? digitOf(stroke) : undefined
  const reader = joined(before, stroke, character)
  if (isComplete(textOf(reader.burst), marks)) {
    const scan = verdictOf(reader.burst, 'terminator', undefined, marks)
    const over = {
      burst: [],
      held: { id: keyId(stroke), at_ms: stroke.at_ms },
      ended_ms: stroke.at_ms,
    }
    return reading(over, [...acts, ...scan], 'used')
  }
  const first = value ? { ...reader, digit: { value, id: keyId(stroke) } } : reader
  return reading(first, acts, 'used')
}

const isOurs = (stroke: Stroke): boolean =>
  [' ', 'Enter', 'Backspace'].includes(stroke.key) || characterOf(stroke) !== undefined

function joined({ digit: _alone, ...before }: KeyReader, stroke: Stroke, text: string): KeyReader {
  const one: Typed = {
    written: text,
    placed: text === ' ' ? ' ' : byPlace(stroke),
    at_ms: stroke.at_ms,
  }
  return { ...before, burst: [...before.burst, one] }
}

function dueAt({ burst, digit }: KeyReader): number | undefined {
  const last = burst.at(-1)
  if (!last) return undefined
  if (!digit) return last.at_ms + BURST_ms
  const tapped = digit.up_ms !== undefined && digit.up_ms - last.at_ms < TAP_ms
  return last.at_ms + (tapped ? BURST_ms : DIGIT_WAIT_ms)
}

function verdictOf(
  burst: readonly Typed[],
  end: Burst['end'],
  end_ms: number | undefined,
  marks: ScanMarks,
): readonly KeyAct[] {
  const times = [...burst.map(({ at_ms }) => at_ms), ...(end_ms === undefined ? [] : [end_ms])]
  const gaps = times.slice(1).map((at_ms, index) => at_ms - (times[index] ?? at_ms))
  const verdict = judgeBurst({ ...textOf(burst), longestGap_ms: Math.max(0, ...gaps), end }, marks)
  return verdict.kind === 'nothing' ? [] : [verdict]
}

const textOf = (burst: readonly Typed[]): Pick<Burst, 'text' | 'placed'> => ({
  text: burst.map(({ written }) => written).join(''),
  placed: burst.map(({ placed }) => placed).join(''),
})

const chosen = (reader: KeyReader, acts: readonly KeyAct[], key: string): KeyReading =>
  reading(reader, [...acts, { kind: 'choose', key }], 'used')

function reading(reader: KeyReader, acts: readonly KeyAct[], what: 'used' | 'left'): KeyReading {
  const wake_ms = dueAt(reader)
  return { reader, acts, used: what === 'used', ...(wake_ms === undefined ? {} : { wake_ms }) }
}
