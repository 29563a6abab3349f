import { chimeOf, CLOCK_KINDS, isCueOf } from '../../core/protocol/clockTable.ts'
import type { Chime } from '../../ports/sound.ts'

/** By the first part of a prompt's key. What is not named is something told that stands on the screen. */
const TONES: Readonly<Record<string, Chime | undefined>> = {
  step: 'next',
  tube: 'next',
  set: 'next',
  flash: 'next',
  pull: 'next',
  sharps: 'next',
  mix: 'mixNow',
  handle: 'handle',
  handled: 'look',
  ask: 'asked',
  exception: 'look',
  flag: 'look',
  off: 'look',
  pack: 'told',
  day: 'told',
}

/** These ask to look at the screen at once, whatever the others of their kind do. */
const LOOK: ReadonlySet<string> = new Set(['app.away', 'app.deaf', 'app.bandIsOn'])

/** The tone that stands for a prompt where none is spoken: one for each kind of thing to be told. */
export function toneOf(promptKey: string): Chime {
  const key = promptKey.replace(/^discreet\./, '')
  if (LOOK.has(key)) return 'look'
  const [kind = '', of = '', name = ''] = key.split('.')
  if (kind === 'cue') return cueTone(of, name)
  return TONES[kind] ?? 'told'
}

/** A call of a clock has its own chime in any mode; the few that are only spoken say "look". */
function cueTone(of: string, name: string): Chime {
  const kind = CLOCK_KINDS.find((each) => each === of)
  return (kind && isCueOf(kind, name) && chimeOf(kind, name)) || 'look'
}
