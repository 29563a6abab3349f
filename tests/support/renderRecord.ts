import { readFileSync } from 'node:fs'
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import type { DrawLog } from '../../src/core/protocol/entry.ts'
import { labelsFor } from '../../src/core/record/labels.ts'
import { writeNote } from '../../src/core/record/note.ts'
import { specimenRisks } from '../../src/core/record/risk.ts'
import { noteTemplate } from './noteTemplate.ts'
import { ChartScreen } from '../../src/ui/chart/ChartScreen.tsx'
import { LabelsScreen, type LabelLayout } from '../../src/ui/labels/LabelsScreen.tsx'

const STYLES = ['styles/tokens', 'styles/base', 'chart/chart', 'labels/labels']

/** A page of its own with the app's styles, as it would be printed. */
function page(body: string): string {
  const css = STYLES.map((name) =>
    readFileSync(new URL(`../../src/ui/${name}.css`, import.meta.url), 'utf8'),
  )
  const style = `<style>${css.join('\n')}</style>`
  return `<!doctype html><html lang="en"><meta charset="utf-8">${style}<body>${body}</body></html>`
}

const nothing = (): void => undefined

export function chartPage(log: DrawLog, paper: 'A4' | 'letter'): string {
  const props = {
    note: writeNote(log, noteTemplate),
    risks: specimenRisks(log),
    tubeName: (id: string) => id,
    paper,
    closed: true,
    onCopy: () => Promise.resolve(true),
    onPrint: nothing,
    onExport: nothing,
    onAddendum: nothing,
    onLabels: nothing,
    onBack: nothing,
  }
  return page(renderToStaticMarkup(createElement(ChartScreen, props)))
}

export function labelsPage(log: DrawLog, paper: 'A4' | 'letter', startLayout: LabelLayout): string {
  const props = { labels: labelsFor(log), paper, startLayout, onPrint: nothing, onBack: nothing }
  return page(renderToStaticMarkup(createElement(LabelsScreen, props)))
}
