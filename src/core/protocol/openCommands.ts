import { ALWAYS_OPEN, commandsWhere, rowOf, type CommandRow } from './commandTable.ts'
import { USUAL_SETS, type UsualSet } from '../order/usualSets.ts'
import type { Command, CommandKey, PlainCommand } from './commands.ts'
import { EXCEPTION_TABLE } from './exceptionTable.ts'
import { momentsOpen } from './decideSeries.ts'
import * as draw from './facts.ts'
import { decide } from './decide.ts'
import type { DrawState } from './state.ts'
import { mainOf, stepOf } from './steps.ts'
import { setsByAge } from './setsByAge.ts'
import { isSyringeUnfit } from './syringe.ts'
import type { Stamp } from '../time/stamp.ts'

/** What may be confirmed now, by the step of the moment and by what is open. */
export interface OpenCommands {
  readonly main: PlainCommand | undefined
  readonly step: readonly CommandKey[]
  readonly always: readonly CommandKey[]
  /** For touch: facts that can be recorded out of order. */
  readonly happened: readonly CommandKey[]
}

type Of<Type extends Command['type']> = Extract<Command, { type: Type }>

/** A command from its key, `chooseArm:left` or a plain name. */
export function commandOf(key: CommandKey): Command {
  const [type, value] = key.split(':')
  if (type === 'chooseArm') return { type, arm: value === 'left' ? 'left' : 'right' }
  if (type === 'chooseSide') return { type, arm: value === 'left' ? 'left' : 'right' }
  if (type === 'chooseVein') return { type, vein: value as Of<'chooseVein'>['vein'] }
  if (type === 'identified') return { type, by: value as Of<'identified'>['by'] }
  if (type === 'antisepticAllergy')
    return { type, allergy: value as Of<'antisepticAllergy'>['allergy'] }
  if (type === 'skinCleanWith')
    return { type, antiseptic: value as Of<'skinCleanWith'>['antiseptic'] }
  if (type === 'armFinding') return { type, finding: value as Of<'armFinding'>['finding'] }
  if (type === 'thinner') return { type, kind: value as Of<'thinner'>['kind'] }
  if (type === 'consentFrom') return { type, how: value as Of<'consentFrom'>['how'] }
  if (type === 'ageTold') return { type, age: value as Of<'ageTold'>['age'] }
  if (type === 'feeding') return { type, feeding: value as Of<'feeding'>['feeding'] }
  if (type === 'circleBad') return { type, finding: value as Of<'circleBad'>['finding'] }
  if (type === 'unlabelledIs')
    return { type, number: Number(value) as Of<'unlabelledIs'>['number'] }
  if (type === 'unlabelledEnd') return { type, how: value as Of<'unlabelledEnd'>['how'] }
  if (type === 'goToVein') return { type, why: value as Of<'goToVein'>['why'] }
  if (type === 'chooseSyringe') return { type, mL: Number(value) as Of<'chooseSyringe'>['mL'] }
  if (type === 'endBecause') return { type, reason: value as Of<'endBecause'>['reason'] }
  if (type === 'chooseSet') return { type, set: USUAL_SETS[value as UsualSet] }
  return { type: key as PlainCommand }
}

/** Sorts the commands by whether they can be true now; those that cannot are not offered. */
export function openCommands(s: DrawState, now: Stamp): OpenCommands {
  const row = stepOf(s)
  const main = mainOf(s)
  const possible = (key: CommandKey): boolean =>
    decide(s, commandOf(key), now).kind !== 'impossible'
  const named = [...new Set([...row.also, ...answers(s), ...tightens(s), ...owed(s), ...told(s)])]
  const offered = setsByAge(s, named).filter(
    (key) => key !== main && possible(key) && !isRestricted(s, key) && !isSyringeUnfit(s, key),
  )
  const always = ALWAYS_OPEN.filter(possible)
  const here = new Set<string>([...offered, ...always, main ?? ''])
  return {
    main,
    step: offered,
    always,
    happened: OUT_OF_ORDER.filter((key) => !here.has(key) && possible(key)),
  }
}

const OUT_OF_ORDER = commandsWhere(({ outOfOrder }) => outOfOrder === true)
const OWED = commandsWhere(({ owed }) => owed !== undefined)

/** A restricted arm is never offered; that it was used all the same can be recorded by touch. */
function isRestricted(s: DrawState, key: CommandKey): boolean {
  const command = commandOf(key)
  const chooses = command.type === 'chooseArm' || command.type === 'chooseSide'
  return chooses && draw.isForbidden(s, command.arm)
}

/** What brings the open exceptions to an end. */
function answers(s: DrawState): readonly CommandKey[] {
  if (s.exceptions.length === 0) return []
  return [...s.exceptions.flatMap(({ kind }) => EXCEPTION_TABLE[kind].endedBy), 'exceptionHandled']
}

/** Flow is lost and the band off: tightening it again may bring the blood back. */
function tightens(s: DrawState): readonly CommandKey[] {
  return draw.needleIsIn(s) && draw.flowFalters(s) ? ['bandOn'] : []
}

/**
 * Moments of the series that nobody told: while no needle is in, and those of later samples once this one is drawn.
 */
function told(s: DrawState): readonly CommandKey[] {
  if (draw.needleIsIn(s)) return []
  const parts = s.opened.sitting?.parts ?? []
  const isDrawn = draw.attemptsInAll(s) > 0
  return momentsOpen(s).filter((moment) => isDrawn || parts.some(({ from }) => from === moment))
}

/** What should have come before the needle and was flagged for it: it can be made good at any step. */
function owed(s: DrawState): readonly CommandKey[] {
  const stuck = draw.attemptsInAll(s) > 0
  const isOwed: Readonly<Record<NonNullable<CommandRow['owed']>, boolean>> = {
    identity: stuck && !draw.identityAnswered(s),
    consent: stuck && s.consent === undefined,
    pause: !draw.needleIsIn(s),
    // What the arm and the patient do is told at once, from the needle in until the bandage is on.
    body: s.puncture.needleIn !== undefined && s.puncture.bandage === undefined && !s.closed,
  }
  return OWED.filter((key) => {
    const what = rowOf(key).owed
    return what !== undefined && isOwed[what]
  })
}
