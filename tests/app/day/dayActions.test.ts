import { describe, expect, it } from 'vitest'
import { fileOf } from '../../../src/app/intake/chosenFile.ts'
import { readableList } from '../../../src/app/day/readableList.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { appRig, type AppRig } from '../../support/appRig.ts'
import { twoPages } from '../../support/twoPages.ts'

const CSV = `familyName,givenNames,birthDate,recordNumber,orderNumber,tests
Invented,Bo,1971-02-03,MRN-B,O-2,cbc
`
const csvOf = (name: string, tests: string, number: string, record = 'MRN-B'): string =>
  `familyName,givenNames,birthDate,recordNumber,orderNumber,tests
Invented,${name},1971-02-03,${record},${number},${tests}
`

const groupsOf = ({ state }: AppRig) =>
  state().day.rows.flatMap((row) => (row.kind === 'orders' ? [row.group] : []))
const nameOf = (rig: AppRig): readonly string[] =>
  groupsOf(rig).map(({ patient }) => patient.fullName)
const idsOf = (rig: AppRig): readonly string[] => groupsOf(rig)[0]?.ids ?? []

async function started(rig: AppRig): Promise<AppRig> {
  await rig.app.start()
  rig.actions.sayWhoDraws({ name: 'Ada Sample', initials: 'AS', siteName: '' })
  return rig
}

const add = (rig: AppRig, ...csv: readonly string[]): Promise<void> =>
  rig.actions.day.addFiles(csv.map((text, n) => fileOf(`${n}.csv`, text)))

/** Ends the day's waits that the beat of the list keeps up. */
async function home(rig: AppRig): Promise<void> {
  await rig.actions.go({ name: 'home' })
  await rig.settle()
}

describe('the day’s list', () => {
  it('takes the order of the form, and shows it', async () => {
    const rig = await started(appRig())
    await rig.plan()
    await rig.actions.day.addDraft()
    expect(rig.state().screen).toEqual({ name: 'home' })
    const [group] = groupsOf(rig)
    expect(group?.items[0]?.order).toMatchObject({
      patient: { fullName: 'Anna First' },
      order: { orderNumber: 'O-1', tests: ['cbc'] },
      from: 'hand',
    })
  })

  it('takes nothing from a form that cannot be read, and says what is missing', async () => {
    const rig = await started(appRig())
    rig.actions.newDraw()
    await rig.actions.day.addDraft()
    expect(groupsOf(rig)).toEqual([])
    expect(rig.state().draftErrors.length).toBeGreaterThan(0)
  })

  it('takes orders of files, and tells of each that cannot be read why', async () => {
    const rig = await started(appRig())
    await rig.actions.day.addFiles([fileOf('b.csv', CSV), fileOf('c.json', '{')])
    expect(nameOf(rig)).toEqual(['Bo Invented'])
    expect(rig.state().day.notTaken).toEqual([expect.stringMatching(/c\.json/)])
    rig.actions.day.dismissNotTaken()
    expect(rig.state().day.notTaken).toEqual([])
  })

  it('is there for another page, which cancels an order with a name and a reason', async () => {
    const [mine, theirs] = twoPages()
    await started(mine)
    await mine.actions.day.addFiles([fileOf('b.csv', CSV)])
    await started(theirs)
    await theirs.actions.day.cancel(idsOf(theirs), '', '')
    expect(theirs.state().trouble).toMatch(/who and why/)
    await theirs.actions.day.cancel(idsOf(theirs), 'Dr. Placeholder', 'ordered twice')
    await home(mine)
    expect(groupsOf(mine)).toEqual([])
    expect(mine.state().day.done[0]?.items[0]?.item).toMatchObject({
      standing: 'cancelled',
      why: 'ordered twice',
    })
  })

  it('changes an order in its place', async () => {
    const rig = await started(appRig())
    await add(rig, CSV)
    rig.actions.day.edit(idsOf(rig)[0] ?? '')
    rig.actions.editDraft({ priority: 'stat' })
    await rig.actions.day.addDraft()
    expect(groupsOf(rig).map(({ place }) => place.reason)).toEqual(['stat'])
  })

  it('puts off until a time of day, and to no time that is none', async () => {
    const rig = await started(appRig())
    await add(rig, CSV)
    await rig.actions.day.putOff(idsOf(rig), 'noonish', 'eats')
    expect(rig.state().trouble).toMatch(/noonish/)
    await rig.actions.day.putOff(idsOf(rig), '23:59', 'eats')
    expect(groupsOf(rig)[0]?.status).toBe('putOff')
    await rig.actions.day.reopen(idsOf(rig), 'came back')
    expect(groupsOf(rig)[0]?.status).toBe('waiting')
  })
})

describe('calling', () => {
  it('takes the next one, and of two pages each another', async () => {
    const [mine, theirs] = twoPages()
    await started(mine)
    await add(mine, csvOf('Bo', 'cbc', 'O-1', 'M-1'), csvOf('Cy', 'cbc', 'O-2', 'M-2'))
    await started(theirs)
    const [a, b] = await Promise.all([mine.actions.day.callNext(), theirs.actions.day.callNext()])
    const named = [a, b].map((row) => (row?.kind === 'orders' ? row.group.patient.fullName : ''))
    expect(new Set(named).size).toBe(2)
    await home(mine)
    expect(groupsOf(mine).map(({ status }) => status)).toEqual(['called', 'called'])
    expect(await mine.actions.day.callNext()).toBeUndefined()
    expect(mine.state().trouble).toBe(texts.day.told.nobodyNext)
  })

  it('is read out without names, unless they are asked for', async () => {
    const rig = await started(appRig())
    expect(
      readableList(rig.state().day, { texts: texts.day, offsetAt: () => 60, names: true }),
    ).toEqual(['Nobody is waiting.'])
    await add(rig, CSV)
    const reading = { texts: texts.day, offsetAt: () => 60 }
    expect(readableList(rig.state().day, { ...reading, names: false })).toEqual([
      '1 draw is to be made.',
      'Next: By arrival.',
    ])
    expect(readableList(rig.state().day, { ...reading, names: true })[1]).toBe(
      'Next: Bo Invented. By arrival.',
    )
  })
})

describe('beginning', () => {
  it('fills in form and plan, and the draw says which order it serves', async () => {
    const rig = await started(appRig())
    await add(rig, CSV)
    const ids = idsOf(rig)
    await rig.actions.day.begin(ids)
    expect(rig.state().screen).toEqual({ name: 'plan' })
    await rig.actions.openDraw()
    const { screen } = rig.state()
    if (screen.name !== 'draw') throw new Error(`no draw: ${rig.state().trouble}`)
    const [first] = (await rig.stored(screen.drawId)).entries
    expect(first?.event).toMatchObject({ listed: ids })
    await home(rig)
    expect(groupsOf(rig)[0]).toMatchObject({ status: 'inChair', drawId: screen.drawId })
    await rig.actions.go(screen)
    await rig.follow('closed')
    await home(rig)
    expect(rig.state().day.done[0]).toMatchObject({ status: 'drawn', drawId: screen.drawId })
  })

  it('of two orders of one patient is one draw, and each keeps its number and tests', async () => {
    const rig = await started(appRig())
    await add(rig, csvOf('Bo', 'cbc', 'O-1'), csvOf('Bo', 'sodium', 'O-2'))
    const ids = idsOf(rig)
    expect(ids).toHaveLength(2)
    await rig.actions.day.begin(ids)
    await rig.actions.openDraw()
    const { screen } = rig.state()
    if (screen.name !== 'draw') throw new Error(`no draw: ${rig.state().trouble}`)
    const [first] = (await rig.stored(screen.drawId)).entries
    expect(first?.event).toMatchObject({
      listed: ids,
      order: {
        tests: ['cbc', 'sodium'],
        parts: [
          { orderNumber: 'O-1', tests: ['cbc'], listed: ids[0] },
          { orderNumber: 'O-2', tests: ['sodium'], listed: ids[1] },
        ],
      },
    })
  })

  it('on two pages opens one draw', async () => {
    const [mine, theirs] = twoPages()
    await started(mine)
    await add(mine, CSV)
    await started(theirs)
    for (const page of [mine, theirs]) await page.actions.day.begin(idsOf(page))
    await Promise.all([mine.actions.openDraw(), theirs.actions.openDraw()])
    await mine.settle()
    expect(await mine.deps.logStore.list()).toHaveLength(1)
    const told = [mine, theirs].map(({ state }) => state().trouble).filter(Boolean)
    expect(told).toEqual([texts.day.told.elsewhere])
  })

  it('pressed twice opens one draw', async () => {
    const rig = await started(appRig())
    await add(rig, CSV)
    await Promise.all([rig.actions.day.begin(idsOf(rig)), rig.actions.day.begin(idsOf(rig))])
    await Promise.all([rig.actions.openDraw(), rig.actions.openDraw()])
    await rig.settle()
    expect(await rig.deps.logStore.list()).toHaveLength(1)
  })

  it('for another patient than the order names is refused', async () => {
    const rig = await started(appRig())
    await add(rig, CSV)
    await rig.actions.day.begin(idsOf(rig))
    rig.actions.editDraft({ recordNumber: 'MRN-OTHER' })
    rig.actions.makePlan()
    await rig.actions.openDraw()
    expect(rig.state().trouble).toBe(texts.day.told.otherPatient)
    expect(await rig.deps.logStore.list()).toEqual([])
  })

  it('stays on the form while a question of its file is open', async () => {
    const rig = await started(appRig())
    await add(rig, csvOf('Bo', 'cbc;cbc', 'O-1'))
    expect(groupsOf(rig)[0]?.items[0]?.order.questions).toHaveLength(1)
    await rig.actions.day.begin(idsOf(rig))
    expect(rig.state().screen).toEqual({ name: 'order' })
    expect(rig.state().draft.questions).toHaveLength(1)
  })
})

describe('after a draw', () => {
  async function drawn(rig: AppRig): Promise<string> {
    await add(rig, CSV)
    await rig.actions.day.begin(idsOf(rig))
    await rig.actions.openDraw()
    const { screen } = rig.state()
    if (screen.name !== 'draw') throw new Error(`no draw: ${rig.state().trouble}`)
    return screen.drawId
  }

  it('that gave nothing, the order can be listed again with its tests', async () => {
    const rig = await started(appRig())
    const drawId = await drawn(rig)
    await rig.close()
    await home(rig)
    expect(groupsOf(rig)[0]?.status).toBe('notDrawn')
    await rig.actions.day.listRest(idsOf(rig))
    expect(groupsOf(rig).map(({ items }) => items[0]?.order.recollects)).toEqual([
      { drawId, tubeIds: [], reason: 'notDrawn' },
    ])
    await rig.actions.day.begin(idsOf(rig))
    rig.clock.advance(31_000)
    await rig.actions.openDraw()
    const { screen } = rig.state()
    if (screen.name !== 'draw') throw new Error(`no draw: ${rig.state().trouble}`)
    const [first] = (await rig.stored(screen.drawId)).entries
    expect(first?.event).toMatchObject({ recollects: { drawId, reason: 'notDrawn' } })
  })

  it('a rejection opens a recollection by itself, once', async () => {
    const rig = await started(appRig())
    const drawId = await drawn(rig)
    await rig.follow('closed')
    const tubeIds = (await rig.stored(drawId)).entries.flatMap(({ event }) =>
      event.type === 'tubeOff' ? [event.tubeId] : [],
    )
    await rig.actions.addLater(drawId, {
      type: 'benchAct',
      act: { type: 'labRejected', tubeIds, reason: 'RC' },
    })
    await home(rig)
    await home(rig)
    expect(groupsOf(rig).map(({ items }) => items[0]?.order.recollects)).toEqual([
      { drawId, tubeIds, reason: 'RC' },
    ])
    expect(rig.state().day.done[0]?.status).toBe('rejected')
  })

  it('whose record is erased, the order does not wait again', async () => {
    const rig = await started(appRig())
    const drawId = await drawn(rig)
    await rig.follow('closed')
    await home(rig)
    await rig.actions.eraseRecord(drawId)
    await home(rig)
    expect(groupsOf(rig)).toEqual([])
    expect(rig.state().day.done[0]?.status).toBe('erased')
    expect(rig.state().trouble).toMatch(/still here: KM47/)
  })
})

it('names nobody once the records are locked', async () => {
  const rig = await started(appRig())
  await add(rig, CSV)
  await rig.actions.setPin('482913')
  rig.actions.keptRecovery()
  rig.actions.lockNow()
  expect(rig.state().lock.state).toBe('locked')
  expect(JSON.stringify(rig.state().day)).not.toMatch(/Invented/)
})
