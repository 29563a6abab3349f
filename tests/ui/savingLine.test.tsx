// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { expect, it } from 'vitest'
import type { AppState } from '../../src/app/appApi.ts'
import type { TextFile } from '../../src/ports/page.ts'
import { SERVICES } from '../support/fakeServices.ts'
import { sampleLog } from '../support/sampleLog.ts'
import { CLOSED, FILLING } from '../support/views.ts'
import { axeFindings } from './axe.ts'
import { renderApp } from './renderApp.tsx'

const unsaved: AppState['unsaved'] = {
  since_ms: 0,
  entries: 3,
  drawIds: ['d1', 'd7'],
  text: 'Not saved: 3 entries since 09:00.',
  why: 'The storage of this browser is full.',
}

it.each<[string, Partial<AppState>]>([
  ['the draw', { screen: { name: 'draw', drawId: FILLING.drawId }, draw: FILLING }],
  ['a closed draw', { screen: { name: 'draw', drawId: CLOSED.drawId }, draw: CLOSED }],
  ['the first screen', { screen: { name: 'home' } }],
  ['the form of the next', { screen: { name: 'order' } }],
])('%s says for as long as it lasts that something is not saved', async (_, where) => {
  renderApp({ ...where, unsaved, trouble: 'Something else.' })
  const alerts = screen.getAllByRole('alert').map(({ textContent }) => textContent)
  expect(alerts[0]).toContain(
    'Not saved: 3 entries since 09:00. The storage of this browser is full.',
  )
  // Something else that went wrong stands beside it and can be put away; this cannot.
  expect(alerts[1]).toContain('Something else.')
  expect(screen.getAllByRole('button', { name: 'Understood' })).toHaveLength(1)
  expect(await axeFindings()).toEqual([])
})

it('offers a file of each draw that has something unsaved', async () => {
  const log = sampleLog()
  const saved: TextFile[] = []
  const app = renderApp(
    { screen: { name: 'home' }, unsaved },
    { page: { ...SERVICES.page, saveText: (file) => void saved.push(file) } },
  )
  app.answer('exportRecord', (drawId, format) =>
    format === 'log' && drawId === 'd7'
      ? undefined
      : { name: `${String(drawId)}.${String(format)}`, type: 'text/plain', text: log.drawId },
  )
  await userEvent.click(screen.getByRole('button', { name: 'Save as file' }))
  // Where the log cannot be signed the note is saved.
  expect(saved.map(({ name }) => name)).toEqual(['d1.log', 'd7.note'])
})
