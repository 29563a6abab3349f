import { beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { createMemoryLogStore } from '../../../src/adapters/storage/memory.ts'
import { exportText } from '../../../src/core/log/exportFile.ts'
import { readLog } from '../../../src/core/log/readLog.ts'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'
import { appRig, type AppRig } from '../../support/appRig.ts'
import { sampleExport, sampleKey } from '../../support/sampleExport.ts'
import { SAMPLE_DRAW_ID, sampleLog, sha256 } from '../../support/sampleLog.ts'

const theirs = sampleKey()
const log = sampleLog()
let text: string
let rig: AppRig

const file = (content: string | Uint8Array<ArrayBuffer>) => new File([content], 'log.json')
const exported = async (of: DrawLog) => exportText(await sampleExport(of, theirs))
const partsOf = (of: string) => {
  const reading = readLog(of, sha256)
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults))
  return reading.value.parts
}

beforeAll(async () => {
  text = await exported(log)
})

beforeEach(async () => {
  rig = appRig()
  await rig.app.start()
})

describe('a log with a key that nobody has named', () => {
  it('is asked about first: who it is of, which key, what is proven and what not', async () => {
    await rig.actions.importLog(file(text))
    const { importQuestion, draws, screen } = rig.state()
    expect(importQuestion?.question).toContain('Alex Invented')
    expect(importQuestion?.question).toContain('29 Feb 1980')
    expect(importQuestion?.question).toContain(theirs.keyId)
    expect(importQuestion?.lines.join('\n')).toContain('Not proven: whose key it is')
    expect([draws, screen]).toEqual([[], { name: 'home' }])
    expect(await rig.deps.logStore.load(SAMPLE_DRAW_ID)).toBeUndefined()
  })

  it('is left when the answer is no', async () => {
    await rig.actions.importLog(file(text))
    await rig.actions.answerImport(false, 'Front desk')
    await rig.actions.answerImport(true)
    expect(rig.state().importQuestion).toBeUndefined()
    expect(await rig.deps.logStore.load(SAMPLE_DRAW_ID)).toBeUndefined()
    expect(rig.state().keys.trusted).toEqual([])
  })

  it('is taken in when the answer is yes, with its key named or not', async () => {
    await rig.actions.importLog(file(text))
    await rig.actions.answerImport(true)
    expect(rig.state().screen).toEqual({ name: 'chart', drawId: SAMPLE_DRAW_ID })
    expect(rig.state().keys.trusted).toEqual([])
    await rig.settle()
    expect(rig.state().origins.get(SAMPLE_DRAW_ID)?.join('\n')).toContain('not known here')
  })

  it('is not asked about again once its key was named; then the key can be forgotten', async () => {
    await rig.actions.importLog(file(text))
    await rig.actions.answerImport(true, '  Front desk tablet ')
    expect(rig.state().keys.trusted).toMatchObject([
      { publicKey: theirs.publicKey, keyId: theirs.keyId, name: 'Front desk tablet' },
    ])
    const other = await exported(sampleLog({ opening: { drawId: 'D7-20261125-0009' } }))
    await rig.actions.go({ name: 'home' })
    await rig.actions.importLog(file(other))
    expect(rig.state().importQuestion).toBeUndefined()
    expect(rig.state().screen).toEqual({ name: 'chart', drawId: 'D7-20261125-0009' })
    await rig.settle()
    expect(rig.state().origins.get('D7-20261125-0009')?.join('\n')).toContain(
      `Key ${theirs.keyId} is known here as Front desk tablet.`,
    )
    await rig.actions.forgetKey(theirs.publicKey)
    await rig.actions.importLog(
      file(await exported(sampleLog({ opening: { drawId: 'D7-20261125-0010' } }))),
    )
    expect(rig.state().importQuestion).toBeDefined()
  })

  it('does not take a person away from where they went meanwhile', async () => {
    const reading = rig.actions.importLog(file(text))
    await rig.actions.go({ name: 'settings' })
    await reading
    expect(rig.state().screen).toEqual({ name: 'settings' })
    const answering = rig.actions.answerImport(true)
    await rig.actions.go({ name: 'practice' })
    await answering
    expect(rig.state().screen).toEqual({ name: 'practice' })
    expect(await rig.deps.logStore.load(SAMPLE_DRAW_ID)).toBeDefined()
  })
})

describe('a log of this device', () => {
  it('comes back to another store without a question', async () => {
    const drawId = await rig.begin()
    await rig.follow('closed')
    const { text: own = '' } = (await rig.actions.exportRecord(drawId, 'log')) ?? {}
    // The same device with its records gone: the key is kept elsewhere.
    const empty = appRig({ deviceKey: rig.deps.deviceKey, logStore: createMemoryLogStore(sha256) })
    await empty.app.start()
    await empty.actions.importLog(file(own))
    expect(empty.state().screen).toEqual({ name: 'chart', drawId })
  })
})

describe('a log that does not hold', () => {
  it.each([
    ['a changed entry', (t: string) => t.replace('"by":"c1"', '"by":"c2"'), /Entry 1 was changed/],
    [
      'a changed signature',
      (t: string) => t.replace(/"signature":"../, '"signature":"00'),
      /signature of key/,
    ],
    ['another kind of file', () => '{"resourceType":"Bundle"}', /not a Stillhand log/],
    ['an impossible draw', () => '', /not a Stillhand log/],
  ])('is refused with the reason and nothing is asked: %s', async (_what, change, reason) => {
    await rig.actions.importLog(file(change(text)))
    expect(rig.state().trouble).toMatch(reason)
    expect(rig.state().importQuestion).toBeUndefined()
    expect(await rig.deps.logStore.list()).toEqual([])
  })

  it('is refused when it cannot have been so, however well it is signed', async () => {
    const undone = sampleLog({ add: [[200, { type: 'entryUndone', seq: 1 }]] })
    await rig.actions.importLog(file(await exported(undone)))
    expect(rig.state().trouble).toMatch(/takes back the opening/)
  })

  it('is refused when its bytes are no text, and when it is too large to be opened', async () => {
    await rig.actions.importLog(file(new Uint8Array([0xff, 0xfe, 0x7b])))
    expect(rig.state().trouble).toMatch(/UTF-8/)
    let opened = false
    const size = 100_000_000
    const arrayBuffer = () => {
      opened = true
      return Promise.resolve(new ArrayBuffer(0))
    }
    await rig.actions.importLog({ name: 'x', size, arrayBuffer })
    expect(rig.state().trouble).toMatch(/larger than 8 MB/)
    expect(opened).toBe(false)
  })
})

describe('the signed export of a draw that was brought in', () => {
  beforeEach(async () => {
    await rig.actions.importLog(file(text))
    await rig.actions.answerImport(true)
  })

  const exportedHere = async () =>
    (await rig.actions.exportRecord(SAMPLE_DRAW_ID, 'log'))?.text ?? ''

  it('is the bytes it came as, and not signed by this device', async () => {
    expect(await exportedHere()).toBe(text)
  })

  it('keeps them in front of what was added here, which this device signs alone', async () => {
    await rig.actions.addAddendum(SAMPLE_DRAW_ID, 'Left arm.', 'Slip')
    const both = await exportedHere()
    expect(both.startsWith(text)).toBe(true)
    const own = await rig.deps.deviceKey.identity()
    expect(partsOf(both).map(({ trailer, entries }) => [trailer.keyId, entries])).toEqual([
      [theirs.keyId, log.entries.length],
      [own.keyId, 1],
    ])
    // A third device sees both signers, and what each of them signed.
    const third = appRig()
    await third.app.start()
    await third.actions.importLog(file(both))
    expect(third.state().importQuestion?.lines.join('\n')).toContain(
      'One more entry was added by key',
    )
    await third.actions.answerImport(true)
    expect((await third.actions.exportRecord(SAMPLE_DRAW_ID, 'log'))?.text).toBe(both)
  })
})

it('a list of keys that does not read trusts nobody and says so', async () => {
  await rig.deps.settingsStore.write(
    'trustedKeys',
    `[{"publicKey":"${theirs.publicKey}","name":"x"`,
  )
  await rig.actions.importLog(file(text))
  expect(rig.state().trouble).toMatch(/list of known keys cannot be read/)
  expect(rig.state().importQuestion).toBeDefined()
})

describe('naming a key by hand', () => {
  it('takes a whole key with a name that can be read, and nothing else', async () => {
    const { publicKey } = theirs
    for (const [key, name] of [
      [publicKey.slice(2), 'Desk'],
      [publicKey, ' '],
      [publicKey, 'De\u202Esk'],
      [theirs.keyId, 'Desk'],
    ] as const) {
      await rig.actions.trustKey(key, name)
      expect(rig.state().trouble).toBeDefined()
      expect(rig.state().keys.trusted).toEqual([])
    }
    await rig.actions.trustKey(publicKey.toUpperCase().replace(/(.{20})/g, '$1 '), 'Desk')
    expect(rig.state().keys.trusted).toMatchObject([{ publicKey, name: 'Desk' }])
    await rig.actions.trustKey(publicKey, 'New desk')
    expect(rig.state().keys.trusted.map(({ name }) => name)).toEqual(['New desk'])
  })
})
