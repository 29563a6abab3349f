// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { expect, it } from 'vitest'
import type { ImportQuestion } from '../../src/app/appApi.ts'
import { shippedSite } from '../support/site.ts'
import { axeFindings } from './axe.ts'
import { renderApp } from './renderApp.tsx'

const texts = shippedSite.texts.log.import
const QUESTION: ImportQuestion = {
  question: 'Take in the draw of Alex Invented?',
  lines: ['Its signature fits.', 'Whose key that is, is not known.'],
  mayName: true,
}
const press = (name: string) => userEvent.click(screen.getByRole('button', { name }))

it('is not there while nothing waits for an answer', () => {
  renderApp()
  expect(screen.queryByText(texts.title)).toBeNull()
})

it('says who the log is of and what is proven of it, and is read out', async () => {
  renderApp({ importQuestion: QUESTION })
  expect(screen.getByRole('alert').textContent).toContain(QUESTION.question)
  const lines = screen.getAllByRole('listitem').map(({ textContent }) => textContent)
  expect(lines).toEqual(expect.arrayContaining([...QUESTION.lines]))
  expect(await axeFindings()).toEqual([])
})

it('takes the log in, with the name of the key or without', async () => {
  const app = renderApp({ importQuestion: QUESTION })
  await press(texts.take)
  await userEvent.type(screen.getByLabelText(texts.name), 'Tablet two')
  await press(texts.take)
  expect(app.calls).toEqual([
    ['answerImport', true, ''],
    ['answerImport', true, 'Tablet two'],
  ])
})

it('leaves it, and the name that was typed goes nowhere', async () => {
  const app = renderApp({ importQuestion: QUESTION })
  await userEvent.type(screen.getByLabelText(texts.name), 'Tablet two')
  await press(texts.leave)
  expect(app.calls).toEqual([['answerImport', false, '']])
  expect(screen.getByLabelText<HTMLInputElement>(texts.name).value).toBe('')
})

it('asks for no name where there is not one unknown key', () => {
  renderApp({ importQuestion: { ...QUESTION, mayName: false } })
  expect(screen.queryByLabelText(texts.name)).toBeNull()
})
