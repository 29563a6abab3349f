import { expect, it } from 'vitest'
import { planDraw } from '../../../src/core/plan/planDraw.ts'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'
import { commandOf } from '../../../src/core/protocol/openCommands.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { specimenRisks } from '../../../src/core/record/risk.ts'
import { drawDriver, nextByTheScreen } from '../../support/drawDriver.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { planInput, WINGED } from '../../support/planning.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { SAMPLE_DRAW_ID } from '../../support/sampleLog.ts'

/** A person who does what the screen asks, with half a minute or more wherever time is asked for. */
function drawnByTheScreen(tests: readonly string[]) {
  const { order, needleSet } = planInput(tests, { needleSet: WINGED })
  const plan = planDraw(planInput(tests, { needleSet: WINGED }))
  const draw = drawDriver({ order, needleSet, plan })
  for (let moves = 0; moves < 120 && !draw.state().closed; moves++) {
    const [asked] = nextByTheScreen(draw.state())
    if (!asked) break
    const command = typeof asked === 'string' ? commandOf(asked) : asked
    const waits = ['skinDry', 'bleedingStopped', 'bandageOn'].includes(command.type)
    draw.advance(waits ? 330_000 : 2_000)
    draw.tries(command)
  }
  const log: DrawLog = {
    format: 'stillhand-log',
    version: 1,
    drawId: SAMPLE_DRAW_ID,
    entries: draw.log(),
  }
  return { log, plan, state: draw.state() }
}

it('asks nobody to mix a citrate discard tube and charts none as missing', () => {
  const { log, plan, state } = drawnByTheScreen(['pt', 'cbc'])
  expect(plan.tubes.map(({ role, additive }) => [role, additive])).toEqual([
    ['discard', 'citrate'],
    ['specimen', 'citrate'],
    ['specimen', 'edtaK2'],
  ])
  // Its label asks for inversions, as that of any citrate tube does.
  expect(plan.tubes[0]?.inversions.min).toBeGreaterThan(0)
  expect(state.closed?.outcome).toBe('complete')
  expect(state.tubes.map(({ mixed }) => mixed !== undefined)).toEqual([false, true, true])
  const note = writeNote(log, noteTemplate)
  expect(note.text).not.toContain('mixed not recorded')
  // A discard is charted as one, and nothing is said of its mixing.
  const discards = note.sections.find(({ title }) => title.startsWith('Discard'))
  expect(discards?.lines.map(({ value }) => value.includes('mixed'))).toEqual([false])
  const tubes = note.sections.find(({ title }) => title.startsWith('Tubes in'))
  const drawn = tubes?.lines.filter(({ label }) => /^\d/.test(label)) ?? []
  expect(drawn.map(({ value }) => value.includes('mixed not needed'))).toEqual([false, false])
  expect(specimenRisks(log, texts.record).map(({ code }) => code)).not.toContain('notMixed')
})
