import { describe, expect, it } from 'vitest'
import { createMemoryLogStore } from '../../../src/adapters/storage/memory.ts'
import {
  rehearsalsCsv,
  rehearsalsJson,
  rehearsalsOf,
} from '../../../src/app/figures/practiceProgress.ts'
import { createScorePracticeDraw } from '../../../src/app/figures/scorePracticeDraw.ts'
import { shownFigures } from '../../../src/app/figures/shownFigures.ts'
import figureTexts from '../../../src/data/en/figures.json' with { type: 'json' }
import { readLog } from '../../../src/core/log/readLog.ts'
import { openScenario } from '../../../src/core/scenario/openScenario.ts'
import { playScript } from '../../../src/core/scenario/playScript.ts'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'
import { appRig } from '../../support/appRig.ts'
import { sampleLog, sha256 } from '../../support/sampleLog.ts'
import { readScript, scenarioFiles, scenarioSite } from '../../support/scenarioSite.ts'
import { shippedSite } from '../../support/site.ts'

const scenarios = scenarioFiles().flatMap(({ name, text }) => {
  const read = readScript(text)
  return read.ok ? [{ id: name, scenario: read.value }] : []
})
const script = 'straight-draw'
const { progress } = figureTexts

function rehearsal(drawId: string): DrawLog {
  const named = scenarios.find(({ id }) => id === script)
  if (!named) throw new Error('no script')
  const as = { drawId, device: 'D7', today: '2026-11-25', script }
  return playScript(named.scenario, openScenario(named.scenario, scenarioSite, as), sha256)
}

async function rigWith(logs: readonly DrawLog[]) {
  const logStore = createMemoryLogStore(sha256)
  for (const { drawId, entries } of logs) await logStore.append(drawId, entries)
  const rig = appRig({ logStore, scenarios })
  await rig.app.start()
  await rig.actions.figures.read(0, true)
  return rig
}

describe('progress of a trainee', () => {
  it('is read from the practice draws that are kept, with the points of each', async () => {
    const rig = await rigWith([rehearsal('D7-20261125-0001'), sampleLog()])
    const [only, ...more] = rehearsalsOf(rig.state().figures)
    expect(more).toEqual([])
    expect(only).toMatchObject({ script, day: '2026-11-25' })
    expect(only?.points).toBe(only?.of)
    // A patient's draw was not even read for it.
    expect(rig.state().figures.read.size).toBe(1)
  })

  it('is gone with the draw that is erased', async () => {
    const rig = await rigWith([rehearsal('D7-20261125-0001')])
    await rig.actions.eraseRecord('D7-20261125-0001')
    expect(rig.state().draws).toEqual([])
  })

  it('is in no figure of patients', async () => {
    const rig = await rigWith([rehearsal('D7-20261125-0001')])
    const shown = (isPractice: boolean) =>
      shownFigures(rig.state().figures, rig.state().draws, { span: 'days', today: '2026-11-25', isPractice }) // prettier-ignore
    expect([shown(false).draws, shown(true).draws]).toEqual([0, 1])
  })

  it('leaves as a table and as JSON that say practice and that no reader takes for a record', async () => {
    const rig = await rigWith([rehearsal('D7-20261125-0001')])
    const rehearsals = rehearsalsOf(rig.state().figures)
    const csv = rehearsalsCsv(rehearsals, progress)
    expect(csv.trim().split('\n').slice(1).every((row) => row.startsWith('PRACTICE,'))).toBe(true) // prettier-ignore
    const json = rehearsalsJson(rehearsals, progress)
    expect(JSON.parse(json)).toMatchObject({ PRACTICE: true, rehearsals: [{ script }] })
    const read = readLog(json, sha256)
    expect(read.ok).toBe(false)
  })

  it('defuses a name that a spreadsheet would run', () => {
    const row = { script, day: '2026-11-25', at_ms: 0, who: '=HYPERLINK("x")', points: 1, of: 2 }
    expect(rehearsalsCsv([row], progress)).toContain(`"'=HYPERLINK(""x"")"`)
  })
})

describe('what is scored', () => {
  const score = createScorePracticeDraw(shippedSite, scenarios, sha256)

  it('is no draw of a patient, whatever script it names', () => {
    expect(score(sampleLog({ opening: { invented: false, script } }))).toBeUndefined()
    expect(score(sampleLog({ opening: { invented: true, script } }))).toBeDefined()
  })

  it('is no practice draw from before scripts were named, and none of a script that is not here', () => {
    expect(score(sampleLog({ opening: { invented: true } }))).toBeUndefined()
    expect(score(sampleLog({ opening: { invented: true, script: 'gone' } }))).toBeUndefined()
  })
})
