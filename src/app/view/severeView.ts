import { EXCEPTION_TABLE, isSevere } from '../../core/protocol/exceptionTable.ts'
import {
  bandIsOn,
  bodyIsSafe,
  isCapillary,
  needleIsIn,
  tubeIsOn,
} from '../../core/protocol/facts.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { stepOf } from '../../core/protocol/steps.ts'
import type { SevereView } from './drawViewTypes.ts'
import { offPromptKey, shownPrompt, stepPromptKey } from './promptKeys.ts'
import { pointsOf } from './stepView.ts'
import type { ViewTexts } from './viewTexts.ts'

/**
 * The gravest thing that is open: first everything off and out, then the steps that are left, one at a time, with what
 * is done ticked. Its own instruction stands large where there is nothing else to do, else first among the points.
 */
export function severeView(s: DrawState, from: ViewTexts): SevereView | undefined {
  const open = s.exceptions.findLast(({ kind }) => isSevere(kind))
  if (!open) return undefined
  const { words, prompts } = from
  const { title, instruction: own } = words.exceptions[open.kind]
  const points = pointsOf(s, words.exceptions[open.kind])
  const checklist = checklistOf(s, open.kind, from)
  const next = nextInstruction(s, open.kind, from)
  return {
    kind: open.kind,
    title,
    instruction: next ?? (shownPrompt(`exception.${open.kind}`, prompts) || own),
    points: next === undefined ? points : [own, ...points],
    checklist,
    isUrgent: isUrgent(s, open.kind),
  }
}

/** Of a lancet, or without a needle, there is no shield to close. */
const isSharpSafe = ({ puncture: { needleIn, shield, sharps, isLancet } }: DrawState): boolean =>
  needleIn === undefined || isLancet === true || shield !== undefined || sharps !== undefined

/** Until nothing is on the arm or in it any more and it is pressed on; without a needle, until it is dealt with. */
function isUrgent(s: DrawState, kind: SevereView['kind']): boolean {
  const { needleIn, pressureOn } = s.puncture
  if (!endsPuncture(kind)) return bandIsOn(s)
  return needleIn === undefined || !bodyIsSafe(s) || pressureOn === undefined
}

const endsPuncture = (kind: SevereView['kind']): boolean => EXCEPTION_TABLE[kind].endsPuncture

/** What comes before the exception's own words: everything off, then each step that is left for the arm. */
function nextInstruction(
  s: DrawState,
  kind: SevereView['kind'],
  { prompts }: ViewTexts,
): string | undefined {
  if (!endsPuncture(kind)) return undefined
  const off = offPromptKey(s)
  if (off) return shownPrompt(off, prompts)
  const step = stepOf(s)
  // Once the sharp is safe the words for it would be wrong.
  if (kind === 'needlestick' && step.id === 'handled' && isSharpSafe(s))
    return shownPrompt(stepPromptKey(s, step, prompts), prompts)
  return AFTER_THE_NEEDLE.has(step.id)
    ? shownPrompt(stepPromptKey(s, step, prompts), prompts)
    : undefined
}

/** What a person does for the patient after the needle; of whoever was stuck, first aid comes before it. */
const AFTER_THE_NEEDLE: ReadonlySet<string> = new Set([
  'pressure',
  'press',
  'shield',
  'sharps',
  'lancetAway',
  'mix',
  'handling',
  'bleeding',
  'bandage',
])

function checklistOf(
  s: DrawState,
  kind: SevereView['kind'],
  { texts: { draw } }: ViewTexts,
): SevereView['checklist'] {
  const { needleIn, needleOut, pressureOn, shield, sharps } = s.puncture
  if (!endsPuncture(kind) || needleIn === undefined) return []
  const off = draw.checklist
  const end = [
    { text: off.pressed, isDone: pressureOn !== undefined },
    ...(isCapillary(s) ? [] : [{ text: off.shield, isDone: shield !== undefined }]),
    { text: off.sharps, isDone: sharps !== undefined },
  ]
  if (isCapillary(s)) return [{ text: off.tube, isDone: !tubeIsOn(s) }, ...end]
  return [
    { text: off.band, isDone: !bandIsOn(s) },
    { text: off.tube, isDone: !tubeIsOn(s) },
    { text: off.needle, isDone: needleOut !== undefined && !needleIsIn(s) },
    ...end,
  ]
}
