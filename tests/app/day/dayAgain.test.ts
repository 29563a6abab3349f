import { describe, expect, it } from 'vitest'
import { fileOf } from '../../../src/app/intake/chosenFile.ts'
import { appRig, type AppRig } from '../../support/appRig.ts'
import type { FakeSound } from '../../support/fakeSound.ts'
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

describe('what comes again or meanwhile', () => {
  it('the same file twice lists each order once and says so; a change of it is listed and asked about', async () => {
    const rig = await started(appRig())
    await add(rig, CSV)
    await add(rig, CSV)
    expect(groupsOf(rig).map(({ ids }) => ids.length)).toEqual([1])
    expect(rig.state().day.notTaken).toEqual([expect.stringMatching(/on the list already/)])
    await add(rig, csvOf('Bo', 'sodium', 'O-2'))
    const all = groupsOf(rig).flatMap(({ items }) => items)
    expect(all).toHaveLength(2)
    expect(groupsOf(rig)[0]?.twice).toHaveLength(1)
  })

  it('one order twice in one file is listed once', async () => {
    const rig = await started(appRig())
    const [, row = ''] = CSV.split('\n')
    await add(rig, `${CSV}${row}\n`)
    expect(groupsOf(rig).flatMap(({ ids }) => ids)).toHaveLength(1)
    expect(rig.state().day.notTaken).toHaveLength(1)
  })

  it('a sample of a series that is due comes before the next call, is told once, and holds up nobody', async () => {
    const rig = await started(appRig())
    const drawId = await rig.begin({ tests: ['ogtt75'], fasted_h: '10' })
    await rig.follow('closed')
    await home(rig)
    await rig.actions.tellMoment(drawId, 'drinkFinished')
    rig.clock.advance(58 * 60_000)
    await add(rig, CSV)
    await home(rig)
    expect(rig.state().day.rows[0]?.kind).toBe('sitting')
    const first = await rig.actions.day.callNext()
    expect(first?.kind).toBe('sitting')
    expect(rig.state().trouble).toMatch(/further sample comes first/)
    expect(groupsOf(rig)[0]?.status).toBe('waiting')
    const second = await rig.actions.day.callNext()
    expect(second?.kind).toBe('orders')
    expect(groupsOf(rig)[0]?.status).toBe('called')
  })

  it('a cancellation on another page reaches the chair in words, once, and makes no sound', async () => {
    const [mine, theirs] = twoPages()
    await started(mine)
    await add(mine, CSV)
    await mine.actions.day.begin(idsOf(mine))
    await mine.actions.openDraw()
    expect(mine.state().screen.name).toBe('draw')
    await started(theirs)
    expect(groupsOf(theirs)[0]?.status).toBe('inChair')
    const id = idsOf(theirs)
    await theirs.actions.day.cancel(id, 'Dr. Placeholder', 'wrong patient')
    const { chimes, spoken } = mine.deps.sound as FakeSound
    const before = [chimes.length, spoken.length]
    await mine.pass(5)
    expect(mine.state().trouble).toMatch(/O-2 was canceled by Dr\. Placeholder.*wrong patient/)
    expect([chimes.length, spoken.length]).toEqual(before)
    mine.actions.dismissTrouble()
    await mine.pass(5)
    expect(mine.state().trouble).toBeUndefined()
  })
})
