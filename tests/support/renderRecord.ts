import { readFileSync } from 'node:fs'
import { createElement, type ReactElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import type { DrawLog } from '../../src/core/protocol/entry.ts'
import { DEFAULT_SETTINGS } from '../../src/app/site/settings.ts'
import { AppContext } from '../../src/ui/shared/appContext.tsx'
import type { AppState } from '../../src/app/appApi.ts'
import { fakeApp } from './fakeApp.ts'
import { ChartScreen } from '../../src/ui/chart/ChartScreen.tsx'
import { PlanScreen } from '../../src/ui/plan/PlanScreen.tsx'
import { LabelsScreen, type LabelLayout } from '../../src/ui/labels/LabelsScreen.tsx'

const STYLES = [
  'styles/tokens',
  'styles/base',
  'styles/frame',
  'chart/chart',
  'pictures/rulerStrip',
  'labels/labels',
  'plan/plan',
  'plan/request',
]

/** A page of its own with the app's styles, as it would be printed. */
function page(body: string): string {
  const css = STYLES.map((name) =>
    readFileSync(new URL(`../../src/ui/${name}.css`, import.meta.url), 'utf8'),
  )
  const style = `<style>${css.join('\n')}</style>`
  return `<!doctype html><html lang="en"><meta charset="utf-8">${style}<body>${body}</body></html>`
}

/** A screen on a record, as the app would show it. */
function recordPage(log: DrawLog, paper: 'A4' | 'letter', shown: ReactElement): string {
  const app = fakeApp({
    records: new Map([[log.drawId, log]]),
    settings: { ...DEFAULT_SETTINGS, paper },
  })
  return page(renderToStaticMarkup(createElement(AppContext, { value: app }, shown)))
}

/** The plan of an order, from which the request is printed. */
export function planPage(paper: 'A4' | 'letter', state: Pick<AppState, 'draft' | 'plan'>): string {
  const app = fakeApp({ ...state, settings: { ...DEFAULT_SETTINGS, paper } })
  return page(
    renderToStaticMarkup(createElement(AppContext, { value: app }, createElement(PlanScreen))),
  )
}

export const chartPage = (log: DrawLog, paper: 'A4' | 'letter'): string =>
  recordPage(log, paper, createElement(ChartScreen, { drawId: log.drawId }))

export const labelsPage = (
  log: DrawLog,
  paper: 'A4' | 'letter',
  startLayout: LabelLayout,
): string =>
  recordPage(
    log,
    paper,
    createElement(LabelsScreen, { drawId: log.drawId, from: 'chart', startLayout }),
  )
