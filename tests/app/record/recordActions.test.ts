import { beforeEach, describe, expect, it } from 'vitest'
import { createMemoryLogStore } from '../../../src/adapters/storage/memory.ts'
import { readLog, signatureFault } from '../../../src/core/log/readLog.ts'
import type { LogStore } from '../../../src/ports/logStore.ts'
import { StorageError } from '../../../src/ports/storageFault.ts'
import recordServer from '../../../src/data/en/recordServer.json' with { type: 'json' }
import storage from '../../../src/data/en/storage.json' with { type: 'json' }
import { fileOf } from '../../../src/app/intake/chosenFile.ts'
import { appRig, type AppRig } from '../../support/appRig.ts'
import { shippedSite } from '../../support/site.ts'
import { nodeVerify } from '../../support/nodeSigning.ts'
import { SAMPLE_DRAW_ID, sampleLog, sha256 } from '../../support/sampleLog.ts'
import { sampleExport, sampleKey } from '../../support/sampleExport.ts'
import { exportText } from '../../../src/core/log/exportFile.ts'

let store: LogStore
let rig: AppRig

const exported = async (): Promise<string> =>
  exportText(await sampleExport(sampleLog(), sampleKey()))
const failing = (): Promise<never> => Promise.reject(new StorageError('hanging', 'as asked'))

beforeEach(async () => {
  store = createMemoryLogStore(sha256)
  await store.append(SAMPLE_DRAW_ID, sampleLog().entries)
  rig = appRig({ logStore: store })
  await rig.app.start()
})

describe('a record that is taken out', () => {
  it('as a signed log reads back, signature and all', async () => {
    const file = await rig.actions.exportRecord(SAMPLE_DRAW_ID, 'log')
    expect(file?.name).toBe(`${SAMPLE_DRAW_ID}.log.json`)
    const read = readLog(file?.text ?? '', sha256)
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    expect(read.value.log.entries).toEqual(sampleLog().entries)
    expect(await signatureFault(read.value, nodeVerify)).toBeUndefined()
  })

  it('as a note and as FHIR names the patient', async () => {
    const note = await rig.actions.exportRecord(SAMPLE_DRAW_ID, 'note')
    expect(note).toMatchObject({ name: `${SAMPLE_DRAW_ID}.txt`, type: 'text/plain' })
    expect(note?.text).toContain('MRN-000123')
    const fhir = await rig.actions.exportRecord(SAMPLE_DRAW_ID, 'fhir')
    expect(JSON.parse(fhir?.text ?? '')).toMatchObject({ resourceType: 'Bundle' })
  })

  it('as a transaction finds the patient as the site said, or is none and says what to set', async () => {
    expect(await rig.actions.exportRecord(SAMPLE_DRAW_ID, 'transaction')).toBeUndefined()
    expect(rig.state().trouble).toBe(recordServer.faults.patientSystem)
    const patient = { system: 'https://example.org/mrn', create: false }
    const site = { ...shippedSite, recordSystems: { patient } }
    const set = appRig({ logStore: store, site })
    await set.app.start()
    const file = await set.actions.exportRecord(SAMPLE_DRAW_ID, 'transaction')
    expect(file?.name).toBe(`${SAMPLE_DRAW_ID}.transaction.fhir.json`)
    expect(JSON.parse(file?.text ?? '')).toMatchObject({ type: 'transaction' })
    expect(file?.text).toContain('Patient?identifier=https%3A%2F%2Fexample.org%2Fmrn%7CMRN-000123')
  })

  it('as a transaction is none while the draw is open', async () => {
    const drawId = await rig.begin({ fullName: 'Anna First' })
    expect(await rig.actions.exportRecord(drawId, 'transaction')).toBeUndefined()
    expect(rig.state().trouble).toContain(recordServer.faults.open)
  })

  it('as its ruler is a picture', async () => {
    const file = await rig.actions.exportRecord(SAMPLE_DRAW_ID, 'strip')
    expect(file).toMatchObject({ name: `${SAMPLE_DRAW_ID}.svg`, type: 'image/svg+xml' })
    expect(file?.text).toContain('tourniquet 0:43')
  })

  it('is none, with the reason, when it is not there, cannot be read or cannot be signed', async () => {
    expect(await rig.actions.exportRecord('D7-20261125-0404', 'note')).toBeUndefined()
    expect(rig.state().trouble).toMatch(/is not stored on this device/)
    rig.deps.deviceKey.sign = () => Promise.reject(new Error('No key.'))
    expect(await rig.actions.exportRecord(SAMPLE_DRAW_ID, 'log')).toBeUndefined()
    expect(rig.state().trouble).toBe('The log cannot be signed. No key.')
    store.load = failing
    expect(await rig.actions.exportRecord(SAMPLE_DRAW_ID, 'note')).toBeUndefined()
    expect(rig.state().trouble).toBe(`The draw cannot be read. ${storage.faults.hanging}`)
  })
})

describe('a record of this device whose disk fails', () => {
  it('still leaves as a signed log: it came from no file', async () => {
    const drawId = await rig.begin({ fullName: 'Anna First' })
    store.original = failing
    const file = await rig.actions.exportRecord(drawId, 'log')
    const read = readLog(file?.text ?? '', sha256)
    expect(read.ok && read.value.log.drawId).toBe(drawId)
    expect(rig.state().trouble).toBeUndefined()
  })

  it('does not where it came from another one: it would be signed as ours', async () => {
    store.original = failing
    expect(await rig.actions.exportRecord(SAMPLE_DRAW_ID, 'log')).toBeUndefined()
    expect(rig.state().trouble).toMatch(/cannot be signed/)
  })
})

describe('a log that is brought in', () => {
  const elsewhere = async (): Promise<AppRig> => {
    const other = appRig()
    await other.app.start()
    return other
  }

  it('is shown and kept with the text it came as', async () => {
    const other = await elsewhere()
    const text = await exported()
    await other.actions.importLog(fileOf('log.json', text))
    await other.actions.answerImport(true)
    expect(other.state().screen).toEqual({ name: 'chart', drawId: SAMPLE_DRAW_ID })
    expect(other.state().draws.map(({ drawId }) => drawId)).toEqual([SAMPLE_DRAW_ID])
    expect(await other.deps.logStore.original(SAMPLE_DRAW_ID)).toBe(text)
  })

  it.each([
    ['no log', () => '{}'],
    ['nothing', () => ''],
    ['one letter changed', (text: string) => text.replace('Alex Invented', 'Alex Inventex')],
    ['another signature', (text: string) => text.replace(/("signature": ?")../, '$1ff')],
  ])('is refused, with a word and without a trace: %s', async (_, change) => {
    const other = await elsewhere()
    await other.actions.importLog(fileOf('log.json', change(await exported())))
    expect(other.state().trouble).toMatch(/^The log is refused: /)
    expect(other.state().screen).toEqual({ name: 'home' })
    expect(await other.deps.logStore.list()).toEqual([])
  })

  it('does not take the place of one that is here', async () => {
    await rig.actions.importLog(fileOf('log.json', await exported()))
    await rig.actions.answerImport(true)
    expect(rig.state().trouble).toBe(`The log cannot be taken in. ${storage.faults.alreadyHere}`)
    expect(rig.state().screen).toEqual({ name: 'home' })
  })
})

describe('something added to a record', () => {
  it('is refused for one that is not whole', async () => {
    const { fault: _, ...log } = { fault: undefined, ...sampleLog() }
    store.load = () => Promise.resolve({ ...log, fault: { code: 'hashMismatch', seq: 3 } as never })
    await rig.actions.addAddendum(SAMPLE_DRAW_ID, 'Left arm.', 'Slip.')
    expect(rig.state().trouble).toMatch(/is damaged/)
  })

  it('is refused for a draw that is open', async () => {
    const drawId = await rig.begin()
    await rig.actions.addAddendum(drawId, 'Left arm.', 'Slip.')
    expect(rig.state().trouble).toBe('This draw is not closed yet.')
    const { entries } = await rig.stored(drawId)
    expect(entries.map(({ event }) => event.type)).toEqual(['drawOpened'])
  })

  it('bears the name of who set it on this device', async () => {
    rig.actions.changeSettings({ collectorName: 'Sam Sample', collectorInitials: 'SS' })
    await rig.actions.addAddendum(SAMPLE_DRAW_ID, 'Left arm.', 'Slip.')
    expect((await rig.stored(SAMPLE_DRAW_ID)).entries.at(-1)?.event).toMatchObject({
      type: 'addendumMade',
      by: { name: 'Sam Sample', initials: 'SS' },
    })
  })

  it('leads to the addendum of two pages both standing in the record', async () => {
    const second = appRig({ logStore: store })
    await second.app.start()
    await rig.actions.addAddendum(SAMPLE_DRAW_ID, 'From one page.', 'a')
    await second.actions.addAddendum(SAMPLE_DRAW_ID, 'From the other.', 'b')
    await rig.actions.addAddendum(SAMPLE_DRAW_ID, 'From the first again.', 'c')
    const texts = (await rig.stored(SAMPLE_DRAW_ID)).entries.flatMap(({ event }) =>
      event.type === 'addendumMade' ? [event.text] : [],
    )
    expect(texts).toEqual(['From one page.', 'From the other.', 'From the first again.'])
  })
})
