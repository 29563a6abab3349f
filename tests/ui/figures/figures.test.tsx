// @vitest-environment jsdom
import { configure, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { drawMeasures } from '../../../src/core/figures/drawMeasures.ts'
import { rulerStrip } from '../../../src/core/record/rulerStrip.ts'
import { texts } from '../../../src/data/en/texts.ts'
import type { ReadDraw } from '../../../src/app/figures/figuresView.ts'
import type { AppState } from '../../../src/app/appApi.ts'
import { SERVICES } from '../../support/fakeServices.ts'
import { logOf, sampleOpening, SAMPLE_START_ms, straightLines } from '../../support/sampleLog.ts'
// Loaded here, so that the first test does not wait for it.
import '../../../src/ui/figures/FiguresScreen.tsx'
import { DEFAULT_SETTINGS } from '../../../src/app/site/settings.ts'
import { setKey } from '../../../src/core/flow/setKey.ts'
import { shippedSite } from '../../support/site.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

// The screen is a part of its own that is loaded when it is asked for; on a busy machine that takes its time.
configure({ asyncUtilTimeout: 15_000 })

const DAY_ms = 86_400_000
const id = (n: number): string => `D7-20261125-${String(n).padStart(4, '0')}`

/** A closed draw each day, every fifth with a remark; `over` days have the band over its limit. */
function figuresState(days: number, each = 1): Partial<AppState> {
  const read = new Map<string, ReadDraw>()
  const draws: AppState['draws'][number][] = []
  for (let n = 0; n < days * each; n++) {
    const start_ms = SAMPLE_START_ms - Math.floor(n / each) * DAY_ms
    const lines = straightLines(sampleOpening({ drawId: id(n) }))
    const log = logOf(
      n % 5 === 0 ? [...lines, [168, { type: 'flagRaised', flag: 'mixedLate' }]] : lines,
      start_ms,
    )
    const measures = drawMeasures(log, texts.record)
    read.set(id(n), { kind: 'measured', hash: String(n), measures })
    draws.push({ drawId: id(n), opened_ms: start_ms, closed: true, patientName: 'Alex Invented', invented: false }) // prettier-ignore
  }
  return { screen: { name: 'figures' }, draws, figures: { read, reading: undefined } }
}

const { figures } = texts

describe('the screen of figures', { timeout: 30_000 }, () => {
  it('is reached from the places of the first screen', async () => {
    const app = renderApp()
    await userEvent.click(screen.getByRole('button', { name: new RegExp(figures.title) }))
    expect(app.calls).toContainEqual(['go', { name: 'figures' }])
  })

  it('says that there is nothing yet, and asks for the records of its span', async () => {
    const app = renderApp({ screen: { name: 'figures' }, draws: [] })
    expect(await screen.findByText(figures.none)).toBeTruthy()
    expect(app.calls.some(([name]) => name === 'figures.read')).toBe(true)
  })

  it('has a picture and a table of every point, and names no patient', async () => {
    renderApp(figuresState(26))
    const name = figures.proportions.flagged.title
    const card = within(await screen.findByRole('region', { name }))
    expect(card.getByRole('img').getAttribute('aria-label')).toContain('(6 of 26)')
    expect(card.getByRole('table').querySelectorAll('tbody tr')).toHaveLength(5)
    expect(document.body.textContent).not.toContain('Alex')
  })

  it('tells no share of few', async () => {
    renderApp(figuresState(5))
    const name = figures.proportions.flagged.title
    const card = within(await screen.findByRole('region', { name }))
    expect(card.getByText(/Too few to say anything/)).toBeTruthy()
    expect(card.queryByText(/ %/)).toBeNull()
  })

  it('says when records are broken, open or still being read', async () => {
    const state = figuresState(2)
    renderApp({
      ...state,
      draws: [
        ...(state.draws ?? []),
        { drawId: 'D7-20261125-0900', opened_ms: 0, closed: false, patientName: 'Alex', invented: false }, // prettier-ignore
        { drawId: 'D7-20261125-0901', opened_ms: 0, closed: true, patientName: 'Alex', invented: false }, // prettier-ignore
      ],
      figures: {
        read: new Map([...(state.figures?.read ?? []), ['D7-20261125-0901', { kind: 'broken' }]]),
        reading: { done: 20, of: 45 },
      },
    })
    expect(await screen.findByText('Reading records: 20 of 45')).toBeTruthy()
    expect(screen.getByText(/1 record is broken and left out: D7-20261125-0901/)).toBeTruthy()
    expect(screen.getByText(/1 draw is still open/)).toBeTruthy()
  })

  it('changes its span and its kind by keys, and marks practice', async () => {
    renderApp(figuresState(3))
    const days = await screen.findByRole('radio', { name: figures.spans.days })
    days.focus()
    await userEvent.keyboard(' ')
    expect(screen.getByText(/3 closed draws from 26 Oct 2026 to 25 Nov 2026/)).toBeTruthy()
    await userEvent.click(screen.getByRole('radio', { name: figures.kinds.practice }))
    expect(screen.getByText(figures.practiceMark)).toBeTruthy()
    expect(screen.getByText(figures.none)).toBeTruthy()
  })

  it('saves its points as a file', async () => {
    const saved: string[] = []
    const page = {
      print: () => undefined,
      copyText: async () => true,
      saveText: ({ name }: { readonly name: string }) => void saved.push(name),
    }
    renderApp(figuresState(3), { page: page })
    await userEvent.click(await screen.findByRole('button', { name: figures.save }))
    expect(saved).toEqual(['stillhand-figures-weeks-2026-11-25.csv'])
  })

  it('saves them under the same columns, whatever the screens speak', async () => {
    const saved: string[] = []
    const page = {
      ...SERVICES.page,
      saveText: ({ text }: { readonly text: string }) => void saved.push(text),
    }
    const { texts } = SERVICES.site
    const csv = { ...texts.figures.csv, figure: 'cifra', share: 'parte' }
    const site = { ...SERVICES.site, texts: { ...texts, figures: { ...texts.figures, csv } } }
    renderApp(figuresState(3), { page, site })
    await userEvent.click(await screen.findByRole('button', { name: figures.save }))
    expect(saved[0]).toMatch(/^figure,practice,from,count,of,share,/)
  })

  it('tells nothing by person until the site wants it; then by name, and no share of few', async () => {
    const state = figuresState(21)
    const first = renderApp(state)
    await screen.findByRole('region', { name: figures.fills.title })
    expect(screen.queryByText('Robin Example (RE)')).toBeNull()
    first.store.setState({ settings: { ...DEFAULT_SETTINGS, figuresByPerson: true } })
    const table = await screen.findByRole('table', { name: figures.people.table })
    expect(within(table).getByText('Robin Example (RE)')).toBeTruthy()
    expect(within(table).getByText('100 % (21 of 21)')).toBeTruthy()
    first.store.setState({ draws: (state.draws ?? []).slice(0, 19) })
    expect(await within(table).findByText('19 of 19, too few to say')).toBeTruthy()
  })

  it('draws a day and saves the picture, without a name', async () => {
    const saved: { readonly name: string; readonly text: string }[] = []
    const page = {
      print: () => undefined,
      copyText: async () => true,
      saveText: (file: (typeof saved)[number]) => void saved.push(file),
    }
    const app = renderApp(figuresState(2), { page })
    const log = logOf(straightLines(sampleOpening({ drawId: id(0) })))
    app.answer('figures.strips', () => [rulerStrip(log)])
    const words = figures.dayPicture
    await userEvent.click(await screen.findByRole('button', { name: words.show }))
    expect(app.calls).toContainEqual(['figures.strips', [id(0)]])
    await userEvent.click(await screen.findByRole('button', { name: words.save }))
    expect(saved.map(({ name }) => name)).toEqual(['stillhand-draws-2026-11-25.svg'])
    expect(saved[0]?.text).toContain(id(0))
    expect(saved[0]?.text).not.toContain('Alex')
    expect(await axeFindings()).toEqual([])
  })

  it('offers a correction of a set by name alone, and never makes one by itself', async () => {
    const app = renderApp(figuresState(21))
    const { correct } = figures.fills
    const accept = await screen.findByRole('button', { name: /^Accept factor 1\.17$/ })
    await userEvent.click(accept)
    expect(screen.getByText(correct.byMissing)).toBeTruthy()
    expect(app.calls.some(([name]) => name === 'figures.correctFill')).toBe(false)
    await userEvent.type(screen.getByLabelText(correct.by), 'R. Example')
    await userEvent.click(accept)
    const asked = app.calls.find(([name]) => name === 'figures.correctFill')
    expect(asked?.[1]).toMatchObject({ factor: 1.17, tubes: 63, by: 'R. Example' })
  })

  it('tells the correction that is in force and lets it be taken back', async () => {
    const set = setKey(sampleOpening().needleSet)
    const inForce = { set, factor: 1.3, by: 'S. Sample', at_ms: 0, tubes: 40 }
    const site = { ...shippedSite, fillCorrections: [inForce] }
    const app = renderApp(figuresState(1), { site })
    expect(await screen.findByText(/factor 1\.30, measured on 40 tubes and accepted by S\. Sample/)).toBeTruthy() // prettier-ignore
    await userEvent.click(screen.getByRole('button', { name: figures.fills.correct.back }))
    expect(app.calls).toContainEqual(['figures.uncorrectFill', set])
  })

  it.each([0, 3, 40])('has nothing that axe objects to, with %i days', async (days) => {
    renderApp(figuresState(days))
    await screen.findByRole('region', { name: figures.fills.title })
    expect(await axeFindings()).toEqual([])
    expect(document.querySelectorAll('[style]')).toHaveLength(0)
  })
})
