import { beforeEach, describe, expect, it } from 'vitest'
import { checkLog } from '../../src/core/log/checkLog.ts'
import type { AppRig } from '../support/appRig.ts'
import { sha256 } from '../support/sampleLog.ts'
import { twoPages } from '../support/twoPages.ts'

let first: AppRig
let second: AppRig

/** Two pages of one browser on one store. */
beforeEach(async () => {
  ;[first, second] = twoPages()
  await first.app.start()
  await second.app.start()
})

const BABY = { birthDate: '2026-11-22', weight_kg: '2.9', collecting: 'capillaryHeel' } as const

const begun = (rig: AppRig, fullName: string, recordNumber: string): Promise<string> =>
  rig.begin({ fullName, recordNumber, ...BABY })

// Two identifiers and a record apart for each patient: NPSG.01.01.01.
describe('two babies from the heel on two pages of one device', () => {
  it('at once: each record is of its own baby, under its own number, and whole', async () => {
    const one = await begun(first, 'Ada Quince', 'N-4471')
    const other = await begun(second, 'Bea Quince', 'N-4472')
    expect(one).not.toBe(other)
    for (const command of ['confirmPatient', 'confirmConsent', 'confirmPreparation', 'confirmSupplies', 'confirmHands', 'lanced', 'dropWiped', 'tubeOn', 'tubeFull'] as const) {
      await first.touch(command)
      await second.touch(command)
    } // prettier-ignore
    for (const [rig, drawId, own, foreign] of [
      [first, one, 'N-4471', 'N-4472'],
      [second, other, 'N-4472', 'N-4471'],
    ] as const) {
      const log = await rig.stored(drawId)
      expect(checkLog(log, sha256)).toMatchObject({ ok: true })
      expect(log.entries.filter(({ event }) => event.type === 'lanced')).toHaveLength(1)
      const text = JSON.stringify(log)
      expect(text).toContain(own)
      expect(text).not.toContain(foreign)
    }
  })

  it('a page that looks on at a heel draw lances nothing; taken over, it goes on where the first was', async () => {
    const drawId = await begun(first, 'Ada Quince', 'N-4471')
    for (const command of ['confirmPatient', 'confirmConsent', 'confirmPreparation', 'confirmSupplies', 'confirmHands'] as const)
      await first.touch(command) // prettier-ignore
    await second.actions.go({ name: 'draw', drawId })
    expect(second.state().draw?.elsewhere).toBeDefined()
    await second.touch('lanced')
    const lancets = async () =>
      (await first.stored(drawId)).entries.filter(({ event }) => event.type === 'lanced').length
    expect(await lancets()).toBe(0)
    await second.actions.takeOver()
    await second.touch('lanced')
    await first.touch('lanced')
    expect(await lancets()).toBe(1)
    expect(checkLog(await first.stored(drawId), sha256)).toMatchObject({ ok: true })
  })
})
