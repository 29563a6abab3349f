import { describe, expect, it } from 'vitest'
import texts from '../../../src/data/en/handOver.json' with { type: 'json' }
import { handOverDevice, handOverPage } from '../../support/handOverRig.ts'

const ADDRESS = 'https://fhir.example/r4'

/** A device that is switched on, and a server with an order for this place and one of who is in the chart; invented. */
async function device(orders?: string) {
  const at = handOverDevice({ address: ADDRESS, ...(orders !== undefined && { orders }) })
  const { memory } = at.behind
  const create = async (type: string, resource: Record<string, unknown>): Promise<string> => {
    const { body } = await memory.create(type, { resourceType: type, ...resource })
    return String(body['id'])
  }
  const ordered = async (family: string, number: string, category: string): Promise<string> => {
    const patient = await create('Patient', {
      identifier: [{ system: 'https://example.org/mrn', value: `MRN-${number}` }],
      name: [{ family, given: ['Pat'] }],
      ...{ birthDate: '1980-05-31', gender: 'female' },
    })
    await create('ServiceRequest', {
      ...{ status: 'active', intent: 'order' },
      category: [{ coding: [{ system: 'https://example.org/category', code: category }] }],
      subject: { reference: `Patient/${patient}` },
      requisition: { system: 'https://example.org/orders', value: number },
      code: { coding: [{ system: 'urn:stillhand:test', code: 'cbc' }], text: 'cbc' },
    })
    return patient
  }
  await ordered('Invented', 'O-1', 'lab')
  const patient = await ordered('Madeup', 'O-2', 'elsewhere')
  const first = handOverPage(at)
  await first.app.start()
  await first.rest()
  return { at, first, patient }
}
type Page = ReturnType<typeof handOverPage>

async function opened(at: Awaited<ReturnType<typeof device>>['at'], before: Page): Promise<Page> {
  const page = handOverPage(at, { logStore: before.deps.logStore })
  await page.app.start()
  await page.rest()
  return page
}
const numbers = (page: Page): readonly string[] =>
  page
    .state()
    .day.rows.flatMap((row) =>
      row.kind === 'orders' ? row.group.items.map(({ order }) => order.order.orderNumber) : [],
    )

// SMART App Launch 2, "EHR launch": the token's answer names who is in the chart.
describe('a page that is opened from a chart', () => {
  it('lists the orders of who is in the chart and of nobody else', async () => {
    const { at, first, patient } = await device()
    await first.actions.handOver.switchOn()
    at.chart = { patient }
    expect(numbers(await opened(at, first))).toEqual(['O-2'])
  })

  it('lists them also where orders for this place are fetched at the same moment', async () => {
    const { at, first, patient } = await device('category=lab')
    await first.actions.handOver.switchOn()
    await first.rest()
    at.chart = { patient }
    const page = await opened(at, first)
    expect(numbers(page).toSorted()).toEqual(['O-1', 'O-2'])
  })

  it('says so where the hand-over is off, and asks for nothing', async () => {
    const { at, first, patient } = await device()
    at.chart = { patient }
    const page = await opened(at, first)
    expect(page.state().trouble).toBe(texts.told.launchedOff)
    expect([numbers(page), at.sent]).toEqual([[], []])
  })

  it('says in words why the login did not succeed, and goes on without it', async () => {
    const { at, first } = await device('category=lab')
    await first.actions.handOver.switchOn()
    await first.rest()
    at.chart = { fault: 'refused' }
    const page = await opened(at, first)
    expect(page.state().trouble).toBe(
      texts.told.launchFailed.replace('{why}', texts.access.refused),
    )
    expect(numbers(page)).toEqual(['O-1'])
  })
})
