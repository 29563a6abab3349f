import type { CueRef } from '../../core/protocol/cueId.ts'
import { toHandle, unhandled } from '../../core/protocol/handled.ts'
import type { DrawState, TubeProgress } from '../../core/protocol/state.ts'
import type { StepRow } from '../../core/protocol/steps.ts'
import {
  bandIsOn,
  exceptionIsOpen,
  isCapillary,
  isFirstNeedle,
  needleIsIn,
  needleSetOf,
  nextTube,
  planned,
  tubeIsOn,
  unmixed,
} from '../../core/protocol/facts.ts'
import { hasSyringe } from '../../core/protocol/syringe.ts'
import type { OffWords, Prompts } from '../site/words.ts'

/** The key of the prompt for a step; the next tube and the count of turns are named where a recording has them. */
export function stepPromptKey(s: DrawState, step: StepRow, prompts: Prompts): string {
  const special = specialKey(s, step)
  return special && prompts.prompts[special] ? special : `step.${step.id}`
}

function specialKey(s: DrawState, step: StepRow): string | undefined {
  if (step.id === 'tube') {
    const next = nextTube(s)
    const tube = next && planned(s, next.id)
    if (!tube) return undefined
    return tube.role === 'discard' ? 'tube.discard' : `tube.${tube.additive}`
  }
  if (step.id === 'flash' && hasSyringe(s)) {
    return needleSetOf(s).kind === 'straight' ? 'flash.tip' : undefined
  }
  if (step.id === 'handled' && exceptionIsOpen(s, 'needlestick')) return 'handled.needlestick'
  if (step.id === 'set' && isFirstNeedle(s)) return 'set.first'
  if (step.id === 'sharps' && s.puncture.transfer) return 'sharps.syringe'
  if (step.id === 'pull' && !needleIsIn(s)) return 'pull.open'
  if (step.id === 'mix') {
    const oldest = unmixed(s)[0]
    return oldest && `mix.${planned(s, oldest.id)?.inversions.min ?? 0}`
  }
  if (step.id === 'handling') {
    const oldest = unhandled(s)[0]
    return oldest && handlePromptKey(s, oldest)
  }
  return undefined
}

/** What is still to be done to a tube: `handle.iceLight`; `undefined` for nothing. */
export function handlePromptKey(s: DrawState, tube: TubeProgress): string | undefined {
  const left = toHandle(s, tube)
  return left.length === 0 ? undefined : `handle.${camel(left)}`
}

/**
 * Everything that is on the arm or in it, to come off in that order: `off.bandTubeNeedle`; `undefined` for nothing. A
 * lanced place is pressed.
 */
export function offPromptKey(s: DrawState): `off.${OffWords}` | undefined {
  if (isCapillary(s)) {
    return needleIsIn(s) ? (tubeIsOn(s) ? 'off.tubePress' : 'off.press') : undefined
  }
  const on = [
    ...(bandIsOn(s) ? ['band'] : []),
    ...(tubeIsOn(s) ? ['tube'] : []),
    ...(needleIsIn(s) ? ['needle'] : []),
  ]
  return on.length === 0 ? undefined : `off.${camel(on) as OffWords}`
}

const camel = (words: readonly string[]): string =>
  words.map((word, i) => (i === 0 ? word : word.charAt(0).toUpperCase() + word.slice(1))).join('')

/** A prompt as it stands on the screen; not always as it is spelled for the voice. */
export function shownPrompt(key: string, { shown, prompts }: Prompts): string {
  return shown?.[key] ?? prompts[key] ?? ''
}

/** The words with a code that are spoken in place of a prompt where patients listen. */
export const codedPrompt = (key: string, { prompts }: Prompts): string | undefined =>
  prompts[`discreet.${key}`]

/** The key of the prompt of a cue: `cue.band.up`. */
export function cuePromptKey({ kind, cue }: CueRef): string {
  return `cue.${kind}.${cue}`
}

/** The recorded length of time nearest to a span, never longer than it: `time.s40`. */
export function timePromptKey(span_ms: number, prompts: Prompts): string {
  const spans = Object.keys(prompts.prompts).flatMap((key) => {
    const match = /^time\.([sm])(\d+)$/.exec(key)
    return match ? [{ key, ms: Number(match[2]) * (match[1] === 's' ? 1000 : 60_000) }] : []
  })
  const fit = spans.filter(({ ms }) => ms <= span_ms).sort((a, b) => b.ms - a.ms)[0]
  return fit?.key ?? spans.sort((a, b) => a.ms - b.ms)[0]?.key ?? 'time.none'
}
