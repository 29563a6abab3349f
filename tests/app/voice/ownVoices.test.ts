import { describe, expect, it } from 'vitest'
import { createMemorySettingsStore } from '../../../src/adapters/storage/memory.ts'
import { createOwnVoices, OWN_VOICES_KEY } from '../../../src/app/voice/ownVoices.ts'
import { MOST_PEOPLE } from '../../../src/core/voice/boundPeople.ts'
import { afterCheck, countsOf } from '../../../src/core/voice/ownVoice.ts'
import { choosing } from '../../../src/core/voice/rankWordings.ts'
import book from '../../../src/data/en/phrases.json'
import { sha256 } from '../../support/sampleLog.ts'

const ADA = 'ada-sample-as'
const BO = 'bo-sample-bs'
const DAY = '2026-11-28'

function device(settingsStore = createMemorySettingsStore()) {
  let lot = 0
  const page = () =>
    createOwnVoices({ settingsStore, phrases: book, sha256, drawLot: () => (lot += 0x1234567) })
  return { settingsStore, page }
}
const learning = (isHeard: boolean) => (voice: Parameters<typeof afterCheck>[0]) =>
  afterCheck(voice, { trials: [{ key: 'bandOff', phrase: 'band is off', isHeard }] }, DAY)

describe('the voices that a device knows', () => {
  it('are kept each for itself, under no name', async () => {
    const { page, settingsStore } = device()
    const voices = page()
    await voices.change(ADA, DAY, learning(true))
    await voices.change(BO, DAY, learning(false))
    expect(countsOf(voices.of(ADA)!, 'bandOff', 'band is off')).toMatchObject({
      asked: 1,
      heard: 1,
    })
    expect(countsOf(voices.of(BO)!, 'bandOff', 'band is off')).toMatchObject({ asked: 1, heard: 0 })
    expect(voices.othersThan(ADA)).toBe(1)
    expect(voices.othersThan(undefined)).toBe(2)
    const text = (await settingsStore.read(OWN_VOICES_KEY)) ?? ''
    expect(text).not.toMatch(/ada|sample/i)
  })

  it('are known again at the next start, under another key on another device', async () => {
    const { page, settingsStore } = device()
    await page().change(ADA, DAY, learning(true))
    const again = page()
    expect(await again.load()).toEqual([])
    expect(again.of(ADA)).toBeDefined()
    expect(again.of(BO)).toBeUndefined()
    const elsewhere = createMemorySettingsStore()
    const other = createOwnVoices({
      ...{ settingsStore: elsewhere, phrases: book, sha256 },
      drawLot: () => 9,
    })
    await other.change(ADA, DAY, learning(true))
    const keyIn = async (store: typeof elsewhere) =>
      /"people":\{"(\w+)"/.exec((await store.read(OWN_VOICES_KEY)) ?? '')?.[1]
    expect(await keyIn(elsewhere)).toMatch(/^[0-9a-f]{32}$/)
    expect(await keyIn(elsewhere)).not.toBe(await keyIn(settingsStore))
  })

  it('lose nothing when two pages learn at one time', async () => {
    const { page } = device()
    const [one, two] = [page(), page()]
    await Promise.all([
      one.change(ADA, DAY, learning(true)),
      two.change(BO, DAY, learning(true)),
      two.change(ADA, DAY, learning(false)),
      one.change(ADA, DAY, learning(true)),
    ])
    await one.load()
    expect(countsOf(one.of(ADA)!, 'bandOff', 'band is off')).toMatchObject({ asked: 3, heard: 2 })
    expect(one.othersThan(ADA)).toBe(1)
  })

  it('show each their own wording first, and the site’s to everybody else', async () => {
    const voices = device().page()
    await voices.change(ADA, DAY, (voice) => choosing(voice, 'bandOff', 'band is off'))
    expect(voices.bookFor(ADA).phrases.bandOff).toEqual(['band is off', 'band released'])
    expect(voices.bookFor(BO).phrases).toEqual(book.phrases)
    expect(voices.bookFor(undefined).phrases).toEqual(book.phrases)
    await voices.change(ADA, DAY, (voice) => choosing(voice, 'bandOff', 'band released'))
    expect(voices.bookFor(ADA).phrases.bandOff?.[0]).toBe('band released')
  })

  it('are forgotten one person at a time, or all in one act', async () => {
    const { page, settingsStore } = device()
    const voices = page()
    await voices.change(ADA, DAY, learning(true))
    await voices.change(BO, DAY, learning(true))
    await voices.forget(ADA)
    expect(voices.of(ADA)).toBeUndefined()
    expect(voices.of(BO)).toBeDefined()
    await voices.forgetAll()
    expect(voices.othersThan(undefined)).toBe(0)
    expect(await settingsStore.read(OWN_VOICES_KEY)).toBe('')
  })

  it('are no more than a device can bear', async () => {
    const voices = device().page()
    for (let i = 0; i < MOST_PEOPLE + 5; i++) await voices.change(`p-${i}`, DAY, learning(true))
    expect(voices.othersThan(undefined)).toBe(MOST_PEOPLE)
  })

  it('are forgotten and told once where they are damaged', async () => {
    const { page, settingsStore } = device()
    await settingsStore.write(OWN_VOICES_KEY, '{"version":1,')
    const voices = page()
    expect(await voices.load()).toEqual(['unread'])
    expect(await voices.load()).toEqual([])
    await voices.change(ADA, DAY, learning(true))
    expect(voices.of(ADA)).toBeDefined()
  })
})
