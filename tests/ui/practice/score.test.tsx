// @vitest-environment jsdom
import { screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import type { ReadDraw } from '../../../src/app/figures/figuresView.ts'
import { createScorePracticeDraw } from '../../../src/app/figures/scorePracticeDraw.ts'
import { drawMeasures } from '../../../src/core/figures/drawMeasures.ts'
import { sealAll } from '../../../src/core/log/seal.ts'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'
import { openScenario } from '../../../src/core/scenario/openScenario.ts'
import { playScript } from '../../../src/core/scenario/playScript.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { readScenario } from '../../../src/core/scenario/readScenario.ts'
import { scenarioVocabulary } from '../../../src/core/scenario/vocabulary.ts'
import straight from '../../../src/data/scenarios/straight-draw.txt?raw'
import phrasesJson from '../../../src/data/en/phrases.json' with { type: 'json' }
import wordsJson from '../../../src/data/en/words.json' with { type: 'json' }
import { sha256 } from '../../support/sampleLog.ts'
import { shippedSite } from '../../support/site.ts'
import * as views from '../../support/views.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

const { score, progress } = texts.figures
const script = 'straight-draw'
const phrases = phrasesJson.phrases
const read = readScenario(straight, scenarioVocabulary(phrases, wordsJson.commands))
if (!read.ok) throw new Error('The script does not read.')
const named = { id: script, scenario: read.value }
const opening = openScenario(named.scenario, shippedSite, { drawId: 'D7-20261125-0003', device: 'D7', today: '2026-11-25', script }) // prettier-ignore
const perfect = playScript(named.scenario, opening, sha256)
const scorePracticeDraw = createScorePracticeDraw(shippedSite, [named], sha256)

/** The sharps box was forgotten, and the skin was wet. */
const flawed: DrawLog = {
  ...perfect,
  entries: sealAll(
    perfect.entries
      .filter(({ event }) => event.type !== 'sharpsDone')
      .flatMap(
        ({ hash: _hash, previous: _previous, ...entry }) =>
        entry.event.type === 'skinDry' ? [entry, { ...entry, event: { type: 'flagRaised' as const, flag: 'skinNotDry' as const } }] : [entry], // prettier-ignore
      )
      .map((entry, i) => ({ ...entry, seq: i + 1 })),
    sha256,
  ),
}

const onScore = (log: DrawLog) =>
  renderApp(
    { screen: { name: 'score', drawId: log.drawId }, records: new Map([[log.drawId, log]]) },
    { scorePracticeDraw, scenarios: [named] },
  )

describe('the score of a rehearsal', () => {
  it('is full where all was done, and marked as practice', async () => {
    onScore(perfect)
    expect(screen.getByText(score.mark)).toBeTruthy()
    expect(screen.getByText(score.noneLost)).toBeTruthy()
    expect(screen.getByRole('img')).toBeTruthy()
    expect(await axeFindings()).toEqual([])
    expect(document.querySelectorAll('[style]')).toHaveLength(0)
  })

  it('tells each missing point in words', () => {
    onScore(flawed)
    const list = within(screen.getByRole('list'))
    const lines = list.getAllByRole('listitem').map((item) => item.textContent)
    expect(lines).toHaveLength(2)
    expect(lines.some((line) => line?.endsWith(': not done.'))).toBe(true)
    expect(lines.some((line) => line?.includes(wordsJson.flags.skinNotDry))).toBe(true)
  })

  it('says where there is nothing to hold it against', () => {
    const { script: _script, ...bare } = opening
    onScore(playScript(named.scenario, bare, sha256))
    expect(screen.getByText(score.none)).toBeTruthy()
  })
})

describe('the end of a draw', () => {
  const closed = { ...views.FILLING, closed: { outcome: 'complete' as const, text: 'Complete.' } }
  const at = { screen: { name: 'draw' as const, drawId: views.FILLING.drawId } }

  it('leads from practice to its score, and from a patient nowhere of the kind', async () => {
    const app = renderApp({ ...at, draw: { ...closed, closed: { ...closed.closed, script } } })
    await new Promise((done) => setTimeout(done, 700))
    await userEvent.click(screen.getByRole('button', { name: new RegExp(score.open) }))
    expect(app.calls).toContainEqual(['go', { name: 'score', drawId: views.FILLING.drawId }])
    document.body.innerHTML = ''
    renderApp({ ...at, draw: closed })
    expect(screen.queryByRole('button', { name: new RegExp(score.open) })).toBeNull()
  })
})

describe('progress on the practice screen', () => {
  it('tells how each script went last, and leaves as a file', async () => {
    const measures = drawMeasures(perfect, texts.record)
    const kept: ReadDraw = {
      kind: 'measured',
      hash: 'x',
      measures,
      practice: { script, points: 40, of: 50 },
    }
    const saved: string[] = []
    const page = { print: () => undefined, copyText: async () => true, saveText: ({ name }: { readonly name: string }) => void saved.push(name) } // prettier-ignore
    renderApp(
      {
        screen: { name: 'practice' },
        draws: [{ drawId: 'd1', opened_ms: 0, closed: true, patientName: '', invented: true }],
        figures: { read: new Map([['d1', kept]]), reading: undefined },
      },
      { scenarios: [named], page: page },
    )
    expect(screen.getByText(/Last: 40 of 50 points on 25 Nov 2026/)).toBeTruthy()
    await userEvent.click(screen.getByRole('button', { name: progress.saveJson }))
    await userEvent.click(screen.getByRole('button', { name: progress.saveCsv }))
    expect(saved).toEqual(['stillhand-PRACTICE-2026-11-25.json', 'stillhand-PRACTICE-2026-11-25.csv']) // prettier-ignore
    expect(await axeFindings()).toEqual([])
  })
})
