// @vitest-environment jsdom
import { screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import type { DayRow, DayView } from '../../src/app/view/dayViewTypes.ts'
import { dayList } from '../../src/core/day/dayList.ts'
import { foldDays } from '../../src/core/day/dayState.ts'
import { shippedSite } from '../support/site.ts'
import { dayEntries, sampleListed } from '../support/sampleDay.ts'
import { SAMPLE_START_ms } from '../support/sampleLog.ts'
import { axeFindings } from './axe.ts'
import { renderApp } from './renderApp.tsx'

const RULES = { ownIdentity: new Set<string>(), isSeries: () => false, isFasting: () => false }
const NOW_ms = SAMPLE_START_ms + 60_000

function view(): DayView {
  const open = sampleListed({
    id: 'L2',
    patient: { fullName: 'Bo Quill', birthDate: '1971-02-03', recordNumber: 'MRN-2' },
    order: { orderNumber: 'O-2', tests: ['cbc'], priority: 'routine' },
    questions: ['Which arm?'],
  })
  const orders = [sampleListed({ id: 'L1' }), open]
  const entries = dayEntries(orders.map((order) => ({ type: 'orderListed', order })))
  const { toDo, done } = dayList(foldDays(entries), [], RULES, NOW_ms)
  const rows = toDo.map((group): DayRow => ({ kind: 'orders', place: group.place, group }))
  return { rows, done, now_ms: NOW_ms, doubled: [], notTaken: [] }
}

const open = () => userEvent.click(screen.getByText('Supplies for the list'))

describe('the supplies below the list', () => {
  it('are worked out when opened: warnings in words on top, then what is needed', async () => {
    const expired = shippedSite.stock.map((lot) => ({ ...lot, expires: '2020-01-01' }))
    renderApp({ day: view(), stock: expired })
    expect(screen.queryByText(/1 draw is counted/)).toBeNull()
    await open()
    const part = await screen.findByRole('region', { name: 'Against the stock of this site' })
    expect(part.textContent).toMatch(/Not enough for the list: .*, short by 1\./)
    expect(part.textContent).toMatch(/Expired and not counted; take it out of the drawer/)
    expect(part.textContent).toMatch(/1 order is not counted/)
    const labels = within(part).getByRole('row', { name: /Specimen labels/ })
    expect(labels.textContent).toBe('Specimen labels101none400')
    expect(await axeFindings()).toEqual([])
  })

  it('tell only what is needed where nobody counts', async () => {
    renderApp({ day: view(), stock: undefined })
    await open()
    expect(await screen.findByText(/Nobody counts the stock here/)).toBeTruthy()
    expect(screen.queryByText('Short by')).toBeNull()
  })

  it('go to paper as they were counted', async () => {
    let n = 0
    const page = { print: () => void (n += 1) }
    const { SERVICES } = await import('../support/fakeServices.ts')
    renderApp({ day: view() }, { page: { ...SERVICES.page, ...page } })
    await open()
    await userEvent.click(await screen.findByRole('button', { name: 'Print the supplies' }))
    const paper = screen.getByRole('article', { name: 'Supplies for the list' })
    expect(paper.textContent).toMatch(/Counted \d+ Nov 2026 \d\d:\d\d/)
    expect(n).toBe(1)
  })
})
