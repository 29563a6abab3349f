import { CHOICE_KEYS, PLAIN_COMMANDS, type Command } from '../../src/core/protocol/commands.ts'
import { defined } from '../../src/core/basics/defined.ts'
import type { ClockKind, CueName } from '../../src/core/protocol/clockTable.ts'
import { isSteering } from '../../src/core/protocol/commandTable.ts'
import { VEINS } from '../../src/core/protocol/events.ts'
import { clocksOf } from '../../src/core/protocol/clocks.ts'
import { commandOf } from '../../src/core/protocol/openCommands.ts'
import type { DrawState } from '../../src/core/protocol/state.ts'
import { sampleCollector, secondCollector } from '../support/sampleLog.ts'

/** Taking back leads to states that are reached without it as well; veins are all alike, and so are gauges, antiseptics and who says the name. */
const SPOKEN: readonly Command[] = [...PLAIN_COMMANDS, ...CHOICE_KEYS]
  .map((key) => commandOf(key))
  .filter(({ type }) => !isSteering(type) && type !== 'goBack')
  .filter((command) => command.type !== 'chooseVein' || command.vein === VEINS[0])
  .filter(
    ({ type }) => type !== 'identified' && type !== 'antisepticAllergy' && type !== 'skinCleanWith',
  )
  .filter((command) => command.type !== 'armFinding' || command.finding === 'infusion')
  .filter((command) => command.type !== 'thinner' || command.kind === 'none')
  .filter(({ type }) => type !== 'consentFrom')
  .filter((command) => command.type !== 'ageTold' || command.age === 'dayOrMore')
  .filter((command) => command.type !== 'feeding' || command.feeding === 'breast')
  .filter((command) => command.type !== 'circleBad' || command.finding === 'layered')
  .filter((command) => command.type !== 'endBecause' || command.reason === 'absent')
  // A syringe, and the way from a heel to a vein, are walked apart.
  .filter(({ type }) => type !== 'chooseSyringe' && type !== 'goToVein')
  .filter((command) => command.type !== 'unlabelledIs' || command.number === 1)
  .filter((command) => command.type !== 'chooseSet' || command.set.gauge === 21)

const WRITTEN: readonly Command[] = [
  { type: 'notPrepared', what: 'ate breakfast' },
  { type: 'nameDecision', decision: 'proceed', by: 'Dr. Pat Placeholder' },
  { type: 'nameDecision', decision: 'stop', by: 'Dr. Pat Placeholder' },
  {
    type: 'nameDecision',
    decision: 'proceed',
    by: 'Dr. Pat Placeholder',
    about: 'restrictedArm',
    why: 'no other arm',
  },
  {
    type: 'nameDecision',
    decision: 'proceed',
    by: 'Dr. Pat Placeholder',
    about: 'redraw',
    why: 'one more try',
  },
  { type: 'approveBlood', by: 'Dr. Pat Placeholder', why: 'no other way' },
  {
    type: 'nameDecision',
    decision: 'proceed',
    by: 'Dr. Pat Placeholder',
    about: 'wristband',
    why: 'band of the last stay',
  },
  { type: 'scanLabel', text: 'SOMEBODYELSE' },
  { type: 'tubeShortBy', estimate_mL: 0 },
  { type: 'syringeHolds', estimate_mL: 0 },
  { type: 'settleUnlabelled', tubeId: 't1', how: 'stayedInHand', by: 'RE' },
  { type: 'settleUnlabelled', tubeId: 't1', how: 'discarded', by: 'RE' },
  { type: 'settleUnlabelled', tubeId: 't1', how: 'sentAsIs', by: 'RE' },
  { type: 'settleUnlabelled', tubeId: 't2', how: 'sentAsIs', by: 'RE' },
  { type: 'tubeOnNamed', tubeId: 't2' },
  { type: 'raise', kind: 'expiredTube', tubeId: 't1' },
  { type: 'handOver', to: sampleCollector },
  { type: 'handOver', to: secondCollector },
]

const OPENS_EXCEPTION: Readonly<Partial<Record<ClockKind, CueName>>> = { band: 'up', fill: 'late' }

/** Everything that may come next: what can be said, touched or written, and the cues that open an exception. */
export function walkCommands(s: DrawState, more: readonly Command[] = []): readonly Command[] {
  const cues = clocksOf(s).flatMap(({ kind, ordinal, from_ms }): Command[] => {
    const name: CueName | undefined = OPENS_EXCEPTION[kind]
    if (!name) return []
    const cue = defined({ kind, ordinal, from_ms, cue: name })
    return [{ type: 'giveCue', cue, late_ms: 0 }]
  })
  return [...SPOKEN, ...WRITTEN, ...more, ...cues]
}
