import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { fileOf } from '../../../src/app/intake/chosenFile.ts'
import { appRig, type AppRig } from '../../support/appRig.ts'

const DAY_CSV = readFileSync(
  join(import.meta.dirname, '..', '..', '..', 'examples', 'day.csv'),
  'utf8',
)

const groupsOf = ({ state }: AppRig) =>
  state().day.rows.flatMap((row) => (row.kind === 'orders' ? [row.group] : []))

describe('orders added to the list', () => {
  it('come from a file of many, those of one patient that may share a draw together', async () => {
    const rig = appRig()
    await rig.app.start()
    await rig.actions.day.addFiles([fileOf('day.csv', DAY_CSV)])
    const groups = groupsOf(rig)
    expect(groups.map(({ items }) => items.length).sort()).toEqual([1, 1, 2])
    expect(groups[0]?.place.reason).toBe('stat')
    expect(groups[0]?.items[0]?.order.place?.kind).toBe('ward')
    expect(rig.state().day.notTaken).toEqual([])
  })

  it('lose none for one row that cannot be read, which is told by its place and reason', async () => {
    const rig = appRig()
    await rig.app.start()
    const text = DAY_CSV.replace('1950-02-28', '1950-02-31')
    await rig.actions.day.addFiles([fileOf('day.csv', text)])
    expect(groupsOf(rig).flatMap(({ ids }) => ids)).toHaveLength(3)
    expect(rig.state().day.notTaken).toHaveLength(1)
    expect(rig.state().day.notTaken[0]).toMatch(/day\.csv.*4.*1950-02-31/)
  })

  it('can be an invented day of five patients, marked as such, loaded once by a double press', async () => {
    const rig = appRig()
    await rig.app.start()
    await Promise.all([rig.actions.day.addDemoDay(), rig.actions.day.addDemoDay()])
    const groups = groupsOf(rig)
    expect(new Set(groups.map(({ patient }) => patient.recordNumber)).size).toBe(5)
    expect(groups.flatMap(({ ids }) => ids)).toHaveLength(6)
    for (const { invented, patient } of groups) {
      expect(invented).toBe(true)
      expect(patient.fullName).toMatch(/\(invented\)/)
    }
    expect(groups[0]?.place.reason).toBe('stat')
  })
})
