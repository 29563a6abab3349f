// @vitest-environment jsdom
import { screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { expect, it } from 'vitest'
import { practiceGroupOf } from '../../../src/app/site/practiceGroups.ts'
import { SERVICES } from '../../support/fakeServices.ts'
import { STATE } from '../../support/views.ts'
import { renderApp } from '../renderApp.tsx'

const { scenarios } = SERVICES
const [first] = scenarios
const PRACTICE = { screen: { name: 'practice' } } as const

it('stands below what it trains, is begun there and noted with when', async () => {
  const { calls } = renderApp(PRACTICE)
  const title = first!.scenario.title
  const name = SERVICES.site.texts.screens.practice.groups[practiceGroupOf(first!.scenario)]
  const group = screen.getByRole('region', { name })
  await userEvent.click(within(group).getByRole('button', { name: `Start: ${title}` }))
  // The screen reads by itself how rehearsals went; nobody asked for it.
  const asked = calls.filter(([name]) => name !== 'figures.read')
  expect(asked[0]![0]).toBe('changeSettings')
  expect(asked[0]![1]).toEqual({
    rehearsed: expect.stringMatching(`^${first!.id}=\\d+$`) as string,
  })
  expect(asked[1]).toEqual(['startPractice', first!.id])
})

it('says when it was last begun', () => {
  const at_ms = new Date(2026, 10, 25, 9, 5).getTime()
  renderApp({ ...PRACTICE, settings: { ...STATE.settings, rehearsed: `${first!.id}=${at_ms}` } })
  expect(screen.getAllByText(/^Last begun/).map(({ textContent }) => textContent)).toEqual([
    'Last begun 25 Nov 2026 09:05',
  ])
})

it('is found by typing, and what does not fit is gone', async () => {
  renderApp(PRACTICE)
  expect(screen.getAllByRole('button', { name: /^Start: / })).toHaveLength(scenarios.length)
  await userEvent.type(screen.getByLabelText('Find by what happens'), first!.scenario.title)
  const left = screen.getAllByRole('button', { name: /^Start: / })
  expect(left.length).toBeLessThanOrEqual(scenarios.length)
  expect(left[0]!.getAttribute('aria-label')).toBe(`Start: ${first!.scenario.title}`)
  await userEvent.type(screen.getByLabelText('Find by what happens'), 'qqq')
  expect(screen.queryAllByRole('button', { name: /^Start: / })).toEqual([])
})
