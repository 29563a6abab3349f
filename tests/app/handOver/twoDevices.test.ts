import { beforeEach, describe, expect, it } from 'vitest'
import texts from '../../../src/data/en/handOver.json' with { type: 'json' }
import { handOverDevice, handOverPage, passing } from '../../support/handOverRig.ts'

/** Two devices of one place that share no hub, each with a list of its own, and one record server; all invented. */

const FILE = { address: 'https://fhir.example/r4', orders: 'category=lab' }
type Page = ReturnType<typeof handOverPage>

let behind: ReturnType<typeof handOverDevice>['behind']
beforeEach(() => {
  ;({ behind } = handOverDevice(FILE))
})

async function opened(devicePrefix: string): Promise<Page> {
  const page = handOverPage({ ...handOverDevice(FILE), behind })
  await page.app.start()
  page.actions.changeSettings({ devicePrefix })
  await page.rest()
  await page.actions.handOver.switchOn()
  await passing(page, 2)
  return page
}
const create = async (type: string, resource: Record<string, unknown>): Promise<string> =>
  String((await behind.memory.create(type, { resourceType: type, ...resource })).body['id'])

/** An order of these tests, one request for each. */
async function ordered(number: string, ...tests: readonly string[]): Promise<readonly string[]> {
  const patient = await create('Patient', {
    identifier: [{ system: 'https://example.org/mrn', value: `MRN-${number}` }],
    name: [{ family: 'Invented', given: ['Pat'] }],
    ...{ birthDate: '1980-05-31', gender: 'female' },
  })
  const ids: string[] = []
  for (const code of tests) {
    const id = await create('ServiceRequest', {
      ...{ status: 'active', intent: 'order' },
      category: [{ coding: [{ system: 'https://example.org/category', code: 'lab' }] }],
      subject: { reference: `Patient/${patient}` },
      requisition: { system: 'https://example.org/orders', value: number },
      code: { coding: [{ system: 'urn:stillhand:test', code }], text: code },
    })
    ids.push(id)
  }
  return ids
}
async function fetched(page: Page): Promise<void> {
  await page.actions.go({ name: 'home' })
  await page.actions.handOver.fetchNow()
  await passing(page, 2)
}
const itemsOf = (page: Page) =>
  page.state().day.rows.flatMap((row) => (row.kind === 'orders' ? row.group.items : []))
const idsOf = (page: Page): readonly string[] => itemsOf(page).map(({ order }) => order.id)
const testsOf = (page: Page): readonly string[] =>
  itemsOf(page).flatMap(({ order }) => order.order.tests)
const questionsOf = (page: Page): readonly string[] =>
  itemsOf(page).flatMap(({ order }) => order.questions)
/** Who says what of a request. */
const told = async (): Promise<readonly (readonly unknown[])[]> =>
  (await behind.memory.search('Task?_count=100'))
    .map(({ owner, status }) => [(owner as { display: string } | undefined)?.display, status])
    .toSorted()

/** What another device has written there. */
const saysOf = (request: string, status: string): Promise<string> =>
  create('Task', {
    ...{ status, intent: 'order', focus: { reference: `ServiceRequest/${request}` } },
    identifier: [{ system: 'urn:stillhand:draw', value: `Z9-20261125-LABC/task/${request}` }],
  })
const of = (text: string): string => text.replace('{device}', 'Z9')

describe('two devices without a hub that fetch the same order', () => {
  it('each tell of it in a Task of their own, and what one has drawn the other draws no more', async () => {
    await ordered('O-1', 'cbc')
    const one = await opened('A1')
    const two = await opened('B2')
    await fetched(one)
    await fetched(two)
    expect(await told()).toEqual([
      ['Device A1', 'received'],
      ['Device B2', 'received'],
    ])
    one.actions.sayWhoDraws({ name: 'Ada Sample', initials: 'AS', siteName: '' })
    await one.actions.day.begin(idsOf(one))
    await one.actions.openDraw()
    await one.follow('closed')
    await one.actions.go({ name: 'home' })
    await passing(one, 25)
    await fetched(two)
    expect(idsOf(two)).toEqual([])
    const why = texts.elsewhere.drawn.replace('{device}', 'A1')
    expect(two.view().orders.told.join()).toContain(why)
    expect(two.state().day.done[0]?.items[0]?.item).toMatchObject({ standing: 'cancelled', why })
    expect(await told()).toEqual([
      ['Device A1', 'completed'],
      ['Device B2', 'cancelled'],
    ])
    // A third one that comes later does not list it at all.
    const three = await opened('C3')
    await fetched(three)
    expect([idsOf(three), three.view().orders.elsewhere_n]).toEqual([[], 1])
    // And the one that drew it hears nothing of the others.
    await fetched(one)
    expect(one.view().orders).toMatchObject({ elsewhere_n: 0, told: [] })
  })

  it.each(['before', 'after'])(
    'are asked about what another one is drawing, that began %s it was listed here, and only once',
    async (when) => {
      const [request = ''] = await ordered('O-1', 'cbc')
      const page = await opened('A1')
      if (when === 'after') await fetched(page)
      await saysOf(request, 'in-progress')
      await fetched(page)
      await fetched(page)
      expect(questionsOf(page)).toEqual([of(texts.elsewhere.inDraw)])
      expect(idsOf(page)).toHaveLength(1)
    },
  )

  it.each(['before', 'after'])(
    'draw what another one has left, which drew the other test %s it was listed here',
    async (when) => {
      const [request = ''] = await ordered('O-1', 'cbc', 'bmp')
      const page = await opened('A1')
      if (when === 'after') await fetched(page)
      await saysOf(request, 'completed')
      await fetched(page)
      expect(testsOf(page)).toEqual(['bmp'])
    },
  )

  const inTheChair = async (page: Page): Promise<void> => {
    page.actions.sayWhoDraws({ name: 'Ada Sample', initials: 'AS', siteName: '' })
    await page.actions.day.begin(idsOf(page))
    await page.actions.openDraw()
    await page.follow('cleanse')
    await page.actions.go({ name: 'home' })
  }

  it('are told of what another one plans to draw, and of its draw while that runs and nothing more is sent', async () => {
    await ordered('O-1', 'cbc')
    const one = await opened('A1')
    const two = await opened('B2')
    await fetched(one)
    await fetched(two)
    const ofOne = async () => (await told()).find(([device]) => device === 'Device A1')?.[1]
    one.actions.sayWhoDraws({ name: 'Ada Sample', initials: 'AS', siteName: '' })
    await one.actions.day.begin(idsOf(one))
    await passing(one, 2)
    expect(await ofOne()).toBe('in-progress')
    // Left again, it waits again.
    await one.actions.go({ name: 'home' })
    await passing(one, 2)
    expect(await ofOne()).toBe('received')
    await one.actions.day.begin(idsOf(one))
    await passing(one, 2)
    await one.actions.openDraw()
    await one.follow('cleanse')
    await passing(one, 60)
    await fetched(two)
    expect(questionsOf(two)).toEqual([texts.elsewhere.inDraw.replace('{device}', 'A1')])
  })

  it.each([
    [
      'completed',
      /O-1 is in the chair here, and some of its tests .*Complete blood count.*Z9 has drawn it/,
    ],
    ['in-progress', /O-1 is in the chair here.*Z9 says .* drawing/],
  ] as const)(
    'are told of a draw that goes on here of what another one says is %s, and it stays whole',
    async (status, says) => {
      const [request = ''] = await ordered('O-1', 'cbc', 'bmp')
      const page = await opened('A1')
      await fetched(page)
      await inTheChair(page)
      await saysOf(request, status)
      await fetched(page)
      expect(page.view().orders.told.join()).toMatch(says)
      expect([testsOf(page), questionsOf(page)]).toEqual([['cbc', 'bmp'], []])
      const drawId = page.state().draws[0]?.drawId ?? ''
      await page.actions.go({ name: 'draw', drawId })
      await page.follow('closed')
      await page.actions.go({ name: 'home' })
      await passing(page, 25)
      // Both drew it, and the record server is told so of each request.
      expect((await told()).filter(([device]) => device === 'Device A1')).toEqual([
        ['Device A1', 'completed'],
        ['Device A1', 'completed'],
      ])
    },
  )

  it('are asked on the plan, and told once, where it is not sure which of the tests another one drew', async () => {
    // Two requests for one test: which of them is for which tube nobody knows.
    const [request = ''] = await ordered('O-1', 'cbc', 'cbc')
    const page = await opened('A1')
    await fetched(page)
    await saysOf(request, 'completed')
    await fetched(page)
    expect(questionsOf(page)).toContain(of(texts.elsewhere.partDrawn))
    expect(page.view().orders.told.join()).toContain('Part of order O-1')
    page.actions.handOver.dismissTold()
    await fetched(page)
    expect(questionsOf(page)).toHaveLength(2)
    expect(page.view().orders.told).toEqual([])
  })

  // Tasks of others stand at a record server too: only ours say what a device like this one did.
  it('take no word of a Task that is nobody’s of theirs, and none of one that failed', async () => {
    const [request = ''] = await ordered('O-1', 'cbc')
    const focus = { reference: `ServiceRequest/${request}` }
    await create('Task', { status: 'completed', intent: 'order', focus })
    await saysOf(request, 'failed')
    const page = await opened('A1')
    await fetched(page)
    expect([testsOf(page), questionsOf(page)]).toEqual([['cbc'], []])
  })

  it.each([
    ['has no Tasks to search', 404, false],
    ['does not let this device search for them', 403, true],
    ['fails', 503, true],
  ])(
    'list orders all the same where the server %s, and say that others are to be asked where it could have told',
    async (_, status, isTold) => {
      await ordered('O-1', 'cbc')
      const answer = behind.answer.bind(behind)
      behind.answer = (method, path, body) =>
        path.startsWith('Task?') && method === 'GET'
          ? Promise.resolve({ status, text: '{"resourceType":"OperationOutcome","issue":[]}' })
          : answer(method, path, body)
      const page = await opened('A1')
      expect(testsOf(page)).toEqual(['cbc'])
      expect(page.state().handOver.orders.told.includes(texts.elsewhere.unknown)).toBe(isTold)
    },
  )
})
