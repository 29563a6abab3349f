import fc from 'fast-check'
import { CHOICE_KEYS, PLAIN_COMMANDS, type Command } from '../../src/core/protocol/commands.ts'
import { EXCEPTION_KINDS } from '../../src/core/protocol/exceptions.ts'
import { commandOf } from '../../src/core/protocol/openCommands.ts'
import { drawDriver, nextByTheScreen, type DrawDriver, twoTubes } from './drawDriver.ts'
import { sampleTube } from './samplePlan.ts'
import { sampleCollector, sampleOpening, secondCollector } from './sampleLog.ts'

const MOST = Number(process.env.PROTOCOL_LENGTH ?? 80)

/** One thing that happens: a command from anywhere, doing what the screen asks for, or the world getting in the way. */
export type Move =
  | {
      readonly kind: 'command'
      readonly command: Command
      readonly sure: boolean
      readonly wait_ms: number
    }
  | { readonly kind: 'asked'; readonly wait_ms: number }
  /** Something that can be true now though the step does not call for it. */
  | { readonly kind: 'possible'; readonly pick: number; readonly wait_ms: number }
  /** The label of a lost tube is scanned, if any tube was lost. */
  | { readonly kind: 'oldLabel'; readonly wait_ms: number }
  | { readonly kind: 'away'; readonly how: 'crash' | 'sleep' | 'hidden'; readonly away_ms: number }
  | { readonly kind: 'clock'; readonly by_ms: number }

const wait_ms = fc.oneof(
  { weight: 4, arbitrary: fc.integer({ min: 1, max: 5000 }) },
  { weight: 2, arbitrary: fc.integer({ min: 5000, max: 70_000 }) },
  { weight: 1, arbitrary: fc.integer({ min: 70_000, max: 400_000 }) },
)
const tubeId = fc.constantFrom('t1', 't2', 't9')
const command: fc.Arbitrary<Command> = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom(...PLAIN_COMMANDS, ...CHOICE_KEYS).map(commandOf) },
  // The commands that end things, tried at every wrong moment.
  {
    weight: 3,
    arbitrary: fc
      .constantFrom(
        'endDraw' as const,
        'specimensRacked' as const,
        'needleOut' as const,
        'needleIn' as const,
        'tryAgain' as const,
      )
      .map(commandOf),
  },
  fc.constantFrom<Command[]>(
    { type: 'notPrepared', what: 'ate breakfast' },
    { type: 'nameDecision', decision: 'proceed', by: 'Dr. Pat Placeholder' },
    { type: 'nameDecision', decision: 'stop', by: 'Dr. Pat Placeholder' },
    { type: 'scanLabel', text: 'D7261125000301' },
    { type: 'scanLabel', text: 'SOMEBODYELSE' },
    { type: 'handOver', to: sampleCollector },
    { type: 'handOver', to: secondCollector },
    { type: 'addNote', text: 'a remark' },
  ),
  fc.constantFrom(0, 0.5, 3).map((estimate_mL): Command => ({ type: 'tubeShortBy', estimate_mL })),
  tubeId.map((id): Command => ({ type: 'tubeOnNamed', tubeId: id })),
  fc
    .tuple(fc.constantFrom(...EXCEPTION_KINDS), fc.option(tubeId, { nil: undefined }))
    .map(([kind, id]): Command => ({
      type: 'raise',
      kind,
      note: 'seen',
      ...(id ? { tubeId: id } : {}),
    })),
)
const move: fc.Arbitrary<Move> = fc.oneof(
  { weight: 8, arbitrary: fc.record({ kind: fc.constant('possible' as const), pick: fc.nat(60), wait_ms }) },
  { weight: 6, arbitrary: fc.record({ kind: fc.constant('command' as const), command, sure: fc.boolean(), wait_ms }) },
  { weight: 12, arbitrary: fc.record({ kind: fc.constant('asked' as const), wait_ms }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('oldLabel' as const), wait_ms }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('away' as const), how: fc.constantFrom('crash' as const, 'sleep' as const, 'hidden' as const), away_ms: fc.integer({ min: 0, max: 600_000 }) }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('clock' as const), by_ms: fc.integer({ min: -7_200_000, max: 7_200_000 }) }) },
) // prettier-ignore
export const moves = fc.array(move, { minLength: 1, maxLength: MOST, size: 'max' })
/** Whose draw it is: with a thinner or not asked, through a needle or from the heel. */
export interface Played {
  readonly thin: 'none' | 'other'
  readonly heel?: boolean
  /** From the heel, with a newborn card before the tube. */
  readonly card?: boolean
}
export const played: fc.Arbitrary<Played> = fc.record({
  thin: fc.constantFrom('none' as const, 'other' as const),
  heel: fc.oneof({ weight: 3, arbitrary: fc.constant(false) }, fc.constant(true)),
  card: fc.boolean(),
})

/**
 * A draw of an infant, or of a child from a vein, with an arm that may not be used, a cleaner that is not fit, latex, thinners and fainting not
 * asked yet, a tube for ice, and no more blood allowed than is planned.
 */
export function start({ thin, heel = false, card = false }: Played): DrawDriver {
  const paper = sampleTube('t1', 'filterPaper', {
    nominal_mL: 0.5,
    inversions: { min: 0, max: 0 },
    handling: ['dryFlat'],
  })
  const tubes = twoTubes.tubes.map((tube, i) =>
    i === 1 ? { ...tube, handling: ['ice'] as const } : heel && card ? paper : tube,
  )
  return drawDriver({
    ...(heel ? { collecting: 'capillaryHeel' as const } : {}),
    // From two years on there is a bandage.
    patient: { ...sampleOpening().patient, birthDate: heel || thin === 'other' ? '2026-10-20' : '2020-10-20' }, // prettier-ignore
    plan: { ...twoTubes, tubes, blood: { ...twoTubes.blood, limit_mL: twoTubes.blood.draw_mL } },
    preparation: {
      anticoagulant: thin === 'none' ? 'notAsked' : thin,
      antisepticAllergy: 'iodine',
      restrictions: { right: 'fistula' },
    },
  })
}

/** Does what a move says; whatever comes of it is right. */
export function make(draw: DrawDriver, next: Move): void {
  switch (next.kind) {
    case 'command':
      draw.advance(next.wait_ms)
      draw.dispatch(next.command, 'voice', undefined, next.sure)
      break
    case 'asked': {
      draw.advance(next.wait_ms)
      const asked = nextByTheScreen(draw.state())[0]
      if (asked) draw.tries(asked)
      break
    }
    case 'possible': {
      draw.advance(next.wait_ms)
      const { step, happened } = draw.open()
      const keys = [...happened, ...step]
      const key = keys[next.pick % keys.length]
      if (key) draw.tries(key)
      break
    }
    case 'oldLabel': {
      draw.advance(next.wait_ms)
      const text = draw.state().lostNumbers.at(-1)
      if (text !== undefined)
        draw.dispatch({ type: 'scanLabel', text }, 'scanner', undefined, false)
      break
    }
    case 'away':
      draw.beAway(next.how, next.away_ms)
      break
    case 'clock':
      draw.setClock(next.by_ms)
      break
  }
}
