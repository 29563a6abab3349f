import { describe, expect, it } from 'vitest'
import { benchBoard, type BenchRow } from '../../../src/core/bench/benchBoard.ts'
import { benchDues } from '../../../src/core/bench/benchDues.ts'
import { benchSpecimens } from '../../../src/core/bench/benchSpecimens.ts'
import type { Rotor } from '../../../src/core/bench/rcf.ts'
import { spinDeed } from '../../../src/core/bench/spinDeed.ts'
import { spinRuns } from '../../../src/core/bench/spinRuns.ts'
import { createSeal } from '../../../src/core/log/seal.ts'
import type { BenchAct } from '../../../src/core/protocol/benchEvents.ts'
import type { Command } from '../../../src/core/protocol/commands.ts'
import { replay } from '../../../src/core/protocol/evolve.ts'
import { goesToLaboratory, specimens } from '../../../src/core/protocol/facts.ts'
import { transition } from '../../../src/core/protocol/transition.ts'
import { isCard } from '../../../src/core/plan/plan.ts'
import {
  playScenario,
  readScript,
  scenarioFiles,
  scenarioSite,
} from '../../support/scenarioSite.ts'
import type { ScenarioRun } from '../../support/runScenario.ts'
import { shippedSite } from '../../support/site.ts'

const ROTOR: Rotor = { places: 12, radius_mm: 170, angle: 'swing', most_rpm: 4500 }
const MINUTE_ms = 60_000
/** More acts than any of these draws can need. */
const MOST_ACTS = 200

/** Does on the bench what the board asks for until nothing is left; answers the flags that this raised. */
function walkBench({ log, state: ended, end }: ScenarioRun) {
  const seal = createSeal(() => '0'.repeat(64))
  const entries = [...log.entries]
  const before = new Set(ended.flags.map(({ flag }) => flag))
  let state = replay(entries)
  let now = end

  const pass = (ms: number): void => {
    now = { ...now, wall_ms: now.wall_ms + ms, mono_ms: now.mono_ms + ms }
  }
  const board = (): readonly BenchRow[] =>
    benchBoard(
      benchSpecimens({ ...log, entries }, scenarioSite.catalogue),
      now,
      shippedSite.bench,
      ROTOR,
    )
  const does = (command: Command): void => {
    pass(1000)
    const next = transition(state, command, { now, source: 'touch', confirmed: true }, seal)
    expect([next.decision.kind, command]).toEqual(['record', command])
    entries.push(...next.entries)
    state = next.state
  }
  const act = (done: BenchAct): void => does({ type: 'benchAct', act: done })

  const all = specimens(state).length
  for (let acts = 0; acts < MOST_ACTS; acts++) {
    const rows = board()
    expect(rows).toHaveLength(goesToLaboratory(state) ? all : 0)
    for (const due of benchDues(rows)) expect(due.at_ms).not.toBeNaN()
    const row = rows.find(({ step }) => step !== 'gone' && (state.closed || step !== 'courier'))
    if (!row) break
    const tubeIds = [row.specimen.tubeId]
    const wait_ms = row.due_ms - now.wall_ms
    if (wait_ms > 0 && Number.isFinite(wait_ms)) pass(wait_ms + 1)
    switch (row.step) {
      case 'clot':
        break
      case 'spin': {
        const runs = spinRuns(board(), ROTOR)
        const inRuns = runs.flatMap((run) => run.rows)
        expect(new Set(inRuns.map(({ specimen }) => specimen.tubeId)).size).toBe(inRuns.length)
        for (const { specimen } of inRuns) {
          expect(isCard(specimen.tube) || specimen.tube.role === 'culture').toBe(false)
          expect(specimen.way.spins).toEqual([])
        }
        const run = runs.find((each) =>
          each.rows.some(({ specimen }) => specimen.tubeId === tubeIds[0]),
        )
        if (!run) throw new Error(`${row.specimen.tube.name} is to be spun and is in no run.`)
        const ids = run.rows.map(({ specimen }) => specimen.tubeId)
        act({ ...spinDeed(run, 'rotor'), tubeIds: ids })
        break
      }
      case 'spinning':
        act({ type: 'spinEnded', tubeIds })
        break
      case 'dry':
        does({ type: 'cardDried' })
        break
      case 'separate':
        act({ type: 'separated', tubeIds })
        break
      case 'store':
        act({ type: 'stored', tubeIds, where: row.store?.where ?? 'room' })
        break
      case 'bag':
        act({ type: 'bagged', tubeIds, bag: 'B1' })
        break
      default:
        act({ type: 'courierTook', tubeIds, courier: 'Sam Sample' })
    }
  }
  return {
    rows: board(),
    state,
    raised: state.flags.flatMap(({ flag }) => (before.has(flag) ? [] : [flag])),
  }
}

describe('every script of the practice, taken on to the bench', () => {
  it.each(scenarioFiles())(
    '$name: each specimen finds its way out, by what the board asks for',
    ({ text }) => {
      const scenario = readScript(text)
      if (!scenario.ok) throw new Error('The script cannot be read.')
      const { rows, state, raised } = walkBench(playScenario(scenario.value))
      for (const { step } of rows) expect(step).toBe(state.closed ? 'gone' : 'courier')
      // Whoever does what the board says spins nothing early or twice and chills nothing that must stay warm.
      expect(
        raised.filter((flag) => ['spunEarly', 'spunTwice', 'keptCold', 'cardWet'].includes(flag)),
      ).toEqual([])
    },
  )

  it('some of them spin, part, dry and hand over: the walk is no empty one', () => {
    const types = scenarioFiles().flatMap(({ text }) => {
      const scenario = readScript(text)
      if (!scenario.ok) return []
      return walkBench(playScenario(scenario.value)).state.kept.map(({ event }) => event.type)
    })
    for (const type of [
      'spinStarted',
      'spinEnded',
      'separated',
      'cardDried',
      'stored',
      'bagged',
      'courierTook',
    ] as const) {
      expect(types).toContain(type)
    }
  })

  it('none is on the bench before it is drawn, and none long after is due at no time', () => {
    for (const { text } of scenarioFiles()) {
      const scenario = readScript(text)
      if (!scenario.ok) continue
      const { log, end } = playScenario(scenario.value)
      const [opened] = log.entries
      if (opened)
        expect(benchSpecimens({ ...log, entries: [opened] }, scenarioSite.catalogue)).toEqual([])
      const late = {
        ...end,
        wall_ms: end.wall_ms + 3000 * MINUTE_ms,
        mono_ms: end.mono_ms + 3000 * MINUTE_ms,
      }
      const here = benchSpecimens(log, scenarioSite.catalogue)
      for (const row of benchBoard(here, late, shippedSite.bench, ROTOR)) {
        // Two days on, nothing that has a limit still has time.
        expect(row.limits.every(({ isOver }) => isOver)).toBe(true)
      }
    }
  })
})
