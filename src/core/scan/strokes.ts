/** One movement of a key, as any keyboard, pedal or scanner reports it. */
export interface Stroke {
  /** What the layout of the machine makes of it: `a`, `1`, `Enter`; `Dead` or `Unidentified` where it makes nothing. */
  readonly key: string
  /** The place of the key whatever the layout, `KeyQ`, `Digit1`; empty where the machine does not say. */
  readonly code: string
  readonly shift: boolean
  /** The machine repeats a key that is held. */
  readonly repeat: boolean
  /** Time of the stroke on the clock of events, ms. */
  readonly at_ms: number
}

/** What names a key when it goes down and comes up again. */
export const keyId = ({ key, code }: Stroke): string => code || key

/** The character as the layout writes it, or by its place where the layout writes none; `undefined` for other keys. */
export function characterOf(stroke: Stroke): string | undefined {
  if (stroke.key === ' ') return undefined
  if ([...stroke.key].length === 1) return stroke.key
  return ['Dead', 'Process', 'Unidentified'].includes(stroke.key) ? byPlace(stroke) : undefined
}

/** The choice a key stands for, `0` to `9`: as written, or by its place where the layout has digits only with shift. */
export function digitOf(stroke: Stroke): string | undefined {
  if (/^[0-9]$/.test(stroke.key)) return stroke.key
  const [, place] = /^Numpad([0-9])$/.exec(stroke.code) ?? /^Digit([0-9])$/.exec(stroke.code) ?? []
  const numpad = stroke.code.startsWith('Numpad')
  return place && (numpad || !stroke.shift) ? place : undefined
}

const PLACES: Readonly<Record<string, string>> = {
  Minus: '-',
  Slash: '/',
  Period: '.',
  Comma: ',',
  NumpadSubtract: '-',
  NumpadDecimal: '.',
  NumpadDivide: '/',
}

/** The character on a keyboard of the United States, which is what scanners type as they are delivered. */
export function byPlace({ key, code, shift }: Stroke): string {
  const [, letter] = /^Key([A-Z])$/.exec(code) ?? []
  if (letter) return shift ? letter : letter.toLowerCase()
  const [, digit] = /^(?:Digit|Numpad)([0-9])$/.exec(code) ?? []
  if (digit) return digit
  return PLACES[code] ?? ([...key].length === 1 ? key : '')
}
