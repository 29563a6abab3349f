import type { Source } from '../../src/core/protocol/entry.ts'
import type { Command, CommandKey, PlainCommand } from '../../src/core/protocol/commands.ts'
import type { Decision } from '../../src/core/protocol/decision.ts'
import type { DrawEvent, DrawOpened, Flag } from '../../src/core/protocol/events.ts'
import { commandOf, openCommands, type OpenCommands } from '../../src/core/protocol/openCommands.ts'
import { USUAL_SETS } from '../../src/core/order/usualSets.ts'
import { mainOf, stepOf } from '../../src/core/protocol/steps.ts'
import type { DrawState } from '../../src/core/protocol/state.ts'
import {
  SIMULATED_START,
  createSimulatedDraw,
  type SimulatedDraw,
} from '../../src/core/scenario/simulatedDraw.ts'
import { stampAfter, type Reading } from '../../src/core/time/stamp.ts'
import { sampleCollector, sampleOpening, secondCollector } from './sampleLog.ts'
import { samplePlan, sampleTube } from './samplePlan.ts'

/** Enough for tests that do not look at the chain, and quick. */
const noHash = (): string => '0'.repeat(64)

/** A serum gel and an EDTA tube; the band is due off during the first. */
export const twoTubes = {
  ...samplePlan([sampleTube('t1', 'activatorGel'), sampleTube('t2', 'edtaK2')]),
  band: { predicted_s: 30, offDuring: 't1' },
}

/** Drives a draw in tests: commands by name, and questions about what came of them. */
export interface DrawDriver extends SimulatedDraw {
  /** Does commands one after another, a second apart; each must be recorded. */
  does(...keys: readonly CommandKey[]): void
  /** One command, whatever comes of it; questions are answered with yes. */
  tries(command: CommandKey | Command, source?: Source): Decision
  open(): OpenCommands
  step(): string
  /** Events of the last command. */
  last(): readonly DrawEvent[]
  flags(): readonly Flag[]
}

export function drawDriver(
  change: Partial<DrawOpened> = {},
  start: Reading = SIMULATED_START,
): DrawDriver {
  const draw = createSimulatedDraw(sampleOpening({ plan: twoTubes, ...change }), noHash, start)
  let from = 1
  const driver: DrawDriver = {
    ...draw,
    tries: (given, source = 'voice') => {
      from = draw.log().length + 1
      return draw.dispatch(
        typeof given === 'string' ? commandOf(given) : given,
        source,
        undefined,
        true,
      )
    },
    does: (...keys) => {
      for (const key of keys) {
        draw.advance(1000)
        const decision = driver.tries(key)
        if (decision.kind !== 'record') {
          throw new Error(
            `${key} was not recorded at step ${driver.step()}: ${JSON.stringify(decision)}`,
          )
        }
      }
    },
    open: () => openCommands(draw.state(), stampAfter(draw.state().last.at, draw.now())),
    step: () => stepOf(draw.state()).id,
    last: () =>
      draw
        .log()
        .slice(from - 1)
        .map(({ event }) => event),
    flags: () =>
      draw.log().flatMap(({ event }) => (event.type === 'flagRaised' ? [event.flag] : [])),
  }
  return driver
}

export const TO_HANDS = ['confirmPatient', 'confirmConsent', 'confirmPreparation', 'confirmSupplies', 'confirmHands'] as const // prettier-ignore
export const TO_CLEAN = [...TO_HANDS, 'chooseArm:left', 'chooseVein:medianCubital', 'skinClean'] as const // prettier-ignore

/** Up to the needle in, with the skin dried for its time. */
export function toNeedleIn(driver: DrawDriver): void {
  driver.does(...TO_CLEAN)
  driver.advance(30_000)
  driver.does('skinDry', 'bandOn', 'needleIn')
}

/** Both tubes drawn and mixed, the needle still in, the band off. */
export function toTubesDone(driver: DrawDriver): void {
  toNeedleIn(driver)
  driver.does(
    'flashSeen',
    'tubeOn',
    'bandOff',
    'tubeFull',
    'tubeMixed',
    'tubeOn',
    'tubeFull',
    'tubeMixed',
  )
}

/** To the bandage, with pressure and watching for their time. */
export function toBandage(driver: DrawDriver): void {
  toTubesDone(driver)
  driver.does('lastTube', 'pressureOn', 'shieldClicked', 'sharpsDone')
  driver.advance(300_000)
  driver.does('bleedingStopped')
  driver.advance(10_000)
  driver.does('bandageOn')
}

/** What a person does who follows the screen and, where it leaves a choice, ends the draw as soon as that is right. */
export function nextByTheScreen(s: DrawState): readonly (Command | PlainCommand)[] {
  const main = mainOf(s)
  if (main) return [main]
  switch (stepOf(s).id) {
    case 'site':
      return [
        { type: 'chooseArm', arm: 'left' },
        { type: 'chooseArm', arm: 'right' },
      ]
    case 'side':
      return [{ type: 'chooseSide', arm: 'left' }]
    case 'born':
      return [{ type: 'ageTold', age: 'dayOrMore' }]
    case 'feeding':
      return [{ type: 'feeding', feeding: 'breast' }]
    case 'provider':
      return ['endDraw']
    case 'vein':
      return [{ type: 'chooseVein', vein: 'medianCubital' }]
    case 'wristband':
      return ['refuseIdentity']
    case 'set':
      return [{ type: 'chooseSet', set: USUAL_SETS.winged21 }]
    case 'latex':
      return ['latexNo']
    case 'fainted':
      return ['faintedNo']
    case 'transfused':
      return ['transfusedNo']
    case 'thinner':
      return [{ type: 'thinner', kind: 'none' }]
    case 'cleanse':
      return [{ type: 'skinCleanWith', antiseptic: 'povidoneIodine' }]
    case 'decision':
      return [{ type: 'nameDecision', decision: 'stop', by: 'Dr. Pat Placeholder' }]
    case 'colleague':
      if (!s.colleagueTook) return ['endDraw']
      return [
        {
          type: 'handOver',
          to: s.collector.id === secondCollector.id ? sampleCollector : secondCollector,
        },
      ]
    case 'unlabelled': {
      const [tube] = s.tubes.filter(({ off, fill }) => off && fill !== 'empty')
      return tube ? [{ type: 'settleUnlabelled', tubeId: tube.id, how: 'sentAsIs', by: 'RE' }] : []
    }
    default:
      return []
  }
}
