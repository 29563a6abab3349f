import { gzipSync } from 'node:zlib'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import manifest from '../../../models/manifest.json'
import { workerMemory } from '../../measure/workerMemory.ts'
import type { Hearing, Speech, SpeechState } from '../../../src/ports/speech.ts'
import { speechContract } from '../../contract/speech.contract.ts'
import { joined, openVoskPage, packed, roomNoise, speechBench, spoken, type SpeechBench } from '../../support/e2eSpeech.ts' // prettier-ignore
import { readWav } from '../../support/wav.ts'
import { WIDE } from '../../support/wide.ts'

const MODEL = 'stillhand-en-0.2.tar.gz'
const { sha256 } = manifest[MODEL]
const ARCHIVE = readFileSync(join(import.meta.dirname, '../../../models', MODEL))
const TALK = join(import.meta.dirname, '../../fixtures/speech/talk.wav')

let bench: SpeechBench
beforeAll(async () => {
  bench = await speechBench()
})
afterAll(() => bench.close())

const urlOf = (path: string): string => `${bench.server.url}${path}`

const feed = (page: Page, ...parts: readonly Float32Array[]): Promise<void> =>
  page.evaluate((sound) => vosk.feed(sound, 'fast'), packed(joined(...parts)))

/** Opens and starts the recognizer in the page; resolves with the time it took, ms. */
async function start(
  page: Page,
  phrases: readonly string[],
  options: { path?: string; sha256?: string; loadTimeout_ms?: number } = {},
): Promise<number> {
  const { path = `/models/${MODEL}`, ...rest } = options
  return page.evaluate(
    ([open, list]) => {
      vosk.open(open)
      vosk.setPhrases(list)
      return vosk.start()
    },
    [{ modelUrl: urlOf(path), ...rest }, phrases] as const,
  )
}

const stateOf = (page: Page): Promise<SpeechState | undefined> =>
  page.evaluate(() => vosk.states().at(-1))
const finalsOf = async (page: Page): Promise<readonly string[]> =>
  (await page.evaluate(() => vosk.hearings()))
    .filter(({ final, text }) => final && text !== '')
    .map(({ text }) => text)

speechContract('the recognizer in Chromium', async () => {
  const page = await bench.freshPage()
  await page.evaluate((modelUrl) => vosk.open({ modelUrl }), urlOf(`/models/${MODEL}`))
  const hearings = new Set<(hearing: Hearing) => void>()
  const states = new Set<(state: SpeechState) => void>()
  const deliver = async (): Promise<void> => {
    const taken = await page.evaluate(() => vosk.take())
    taken.states.forEach((state) => states.forEach((listener) => listener(state)))
    taken.hearings.forEach((hearing) => hearings.forEach((listener) => listener(hearing)))
  }
  const speech: Speech = {
    start: () => page.evaluate(() => vosk.start().then(() => undefined)).then(deliver),
    stop: () => page.evaluate(() => vosk.stop()).then(deliver),
    setPhrases: (phrases) => void page.evaluate((list) => vosk.setPhrases(list), phrases),
    onHearing: (listener) => (hearings.add(listener), () => void hearings.delete(listener)),
    onState: (listener) => (states.add(listener), () => void states.delete(listener)),
    onLevel: () => () => undefined,
  }
  return {
    speech,
    say: async (phrase) => {
      await feed(page, roomNoise(600), spoken(phrase), roomNoise(1500))
      await deliver()
    },
    quiet: async (length_ms) => {
      await feed(page, roomNoise(length_ms))
      await deliver()
    },
    close: () => page.context().close(),
  }
})

describe('loading the model', () => {
  let page: Page
  afterEach(() => page.context().close())

  it('tells that the archive is not there', async () => {
    page = await bench.freshPage()
    await start(page, [], { path: '/models/none.tar.gz', sha256 })
    expect(await stateOf(page)).toMatchObject({ kind: 'trouble', code: 'loadFailed' })
    expect(await stateOf(page)).toHaveProperty('detail', expect.stringContaining('404'))
  })

  it('tells a wrong checksum, and never hands that archive to the engine', async () => {
    page = await bench.freshPage()
    bench.server.extra.set('/models/changed.tar.gz', Buffer.concat([ARCHIVE, Buffer.from([0])]))
    const workers = await page.evaluate(() => vosk.workers())
    await start(page, [], { path: '/models/changed.tar.gz', sha256 })
    expect(await stateOf(page)).toMatchObject({ kind: 'trouble', code: 'wrongChecksum' })
    expect(await page.evaluate(() => vosk.workers())).toBe(workers)
  })

  it.each([
    ['that is no archive', Buffer.from('not an archive')],
    ['that holds no model', gzipSync(Buffer.alloc(10_240))],
    ['that was cut off', ARCHIVE.subarray(0, 1_000_000)],
  ])(
    'tells an archive %s, and takes the right one at the same address afterwards',
    async (_, bytes) => {
      page = await bench.freshPage()
      bench.server.extra.set('/models/broken.tar.gz', bytes)
      await start(page, [], { path: '/models/broken.tar.gz', loadTimeout_ms: 15_000 })
      expect(await stateOf(page)).toMatchObject({ kind: 'trouble', code: 'badArchive' })
      await page.evaluate(() => vosk.stop())
      bench.server.extra.set('/models/broken.tar.gz', ARCHIVE)
      await start(page, [], { path: '/models/broken.tar.gz', sha256 })
      expect(await stateOf(page)).toEqual(expect.objectContaining({ kind: 'listening' }))
    },
  )

  it('tells an engine that never answers', async () => {
    page = await bench.freshPage()
    await page.evaluate(() => {
      Worker.prototype.postMessage = () => undefined
    })
    const took_ms = await start(page, [], { loadTimeout_ms: 2000, sha256 })
    expect(await stateOf(page)).toMatchObject({ kind: 'trouble', code: 'loadFailed' })
    expect(took_ms).toBeLessThan(30_000)
  })

  it('tells a missing worker file', async () => {
    page = await bench.freshPage()
    const { extra } = bench.server
    const worker = extra.get('/vosk/vosk.worker.js')!
    extra.set('/vosk/vosk.worker.js', 404)
    await start(page, [])
    extra.set('/vosk/vosk.worker.js', worker)
    expect(await stateOf(page)).toMatchObject({ kind: 'trouble', code: 'loadFailed' })
  })

  it('checks and fetches the archive once; afterwards it starts without fetching it', async () => {
    page = await bench.freshPage()
    const fetched = (): number =>
      bench.server.asked.filter((path) => path === `/models/${MODEL}`).length
    await start(page, [], { sha256 })
    const before = fetched()
    await page.evaluate(() => vosk.stop())
    await openVoskPage(page, bench.server)
    await start(page, ['band on'], { sha256 })
    expect(await stateOf(page)).toMatchObject({ kind: 'listening' })
    expect(fetched()).toBe(before)
  })

  it('mends a broken cache by itself', async () => {
    page = await bench.freshPage()
    await start(page, [], { sha256 })
    await page.evaluate(() => vosk.stop())
    await page.evaluate(async () => {
      const db = await new Promise<IDBDatabase>((resolve, reject) => {
        const opening = indexedDB.open('/vosk')
        opening.onsuccess = () => resolve(opening.result)
        opening.onerror = () => reject(new Error('The cache cannot be opened.'))
      })
      await new Promise((resolve) => {
        const writing = db.transaction('FILE_DATA', 'readwrite')
        const files = writing.objectStore('FILE_DATA')
        files.getAllKeys().onsuccess = (event) => {
          const keys = (event.target as IDBRequest<IDBValidKey[]>).result
          const model = keys.find(
            (key) => typeof key === 'string' && key.endsWith('/am/final.mdl'),
          )!
          files.get(model).onsuccess = (found) => {
            const file = (found.target as IDBRequest<object>).result
            files.put({ ...file, contents: new Uint8Array(10) }, model)
          }
        }
        writing.oncomplete = resolve
      })
      db.close()
    })
    await start(page, [], { sha256, loadTimeout_ms: 15_000 })
    expect(await stateOf(page)).toMatchObject({ kind: 'listening' })
  })

  it('lets one page listen at a time; the next begins when that one ends', async () => {
    page = await bench.freshPage()
    const second = await page.context().newPage()
    await openVoskPage(second, bench.server)
    await start(page, [], { sha256 })
    await start(second, [], { sha256 })
    expect(await stateOf(second)).toMatchObject({ kind: 'trouble', code: 'elsewhere' })
    await page.evaluate(() => vosk.stop())
    await expect
      .poll(() => stateOf(second), { timeout: 20_000 })
      .toMatchObject({ kind: 'listening' })
  })
})

describe('the worker dies', () => {
  it.each(['killWorker', 'silenceWorker'] as const)(
    'is told, started again, and hears what was said meanwhile (%s)',
    async (how) => {
      const page = await bench.freshPage()
      await start(page, ['needle in', 'band on'], { sha256 })
      await feed(page, roomNoise(600), spoken('band on'), roomNoise(1500))
      await page.evaluate((name) => vosk[name](), how)
      const sound = packed(joined(roomNoise(200), spoken('needle in'), roomNoise(1000)))
      const fed = page.evaluate((samples) => vosk.feed(samples, 'real'), sound)
      const kinds = async (): Promise<unknown[]> =>
        (await page.evaluate(() => vosk.states())).map((state) =>
          state.kind === 'trouble' ? state.code : state.kind,
        )
      await expect
        .poll(kinds, { timeout: 30_000 })
        .toEqual(['loading', 'listening', 'workerDied', 'listening'])
      await fed
      await feed(page, roomNoise(1500))
      expect(await finalsOf(page)).toEqual(['band on', 'needle in'])
      await page.context().close()
    },
  )
})

describe('changing the phrases in mid-stream', () => {
  const PAIRS = [
    ['band on', 'needle in'],
    ['needle in', 'blood flash'],
    ['fresh tube', 'tube complete'],
    ['tube complete', 'mixing done'],
  ] as const
  const GAPS_ms = [150, 300, 500]
  const cases = PAIRS.flatMap(([first, second]) =>
    GAPS_ms.map((gap_ms) => [first, second, gap_ms] as const),
  )

  let page: Page
  beforeAll(async () => {
    page = await bench.freshPage()
    await start(page, [], { sha256 })
  })
  afterAll(() => page.context().close())

  it.each(cases)(
    'loses and doubles nothing: "%s", "%s" after %i ms',
    async (first, second, gap_ms) => {
      await page.evaluate(
        ([text, next]) => {
          vosk.setPhrases([text, 'go back'])
          vosk.changeAfter(text, [next, 'go back'])
        },
        [first, second] as const,
      )
      await feed(page, roomNoise(1500))
      await page.evaluate(() => vosk.take())
      await feed(page, spoken(first), roomNoise(gap_ms), spoken(second), roomNoise(1800))
      const { hearings } = await page.evaluate(() => vosk.take())
      const heard = (phrase: string): number =>
        new Set(
          hearings
            .filter(({ text }) => ` ${text} `.includes(` ${phrase} `))
            .map(({ utterance }) => utterance),
        ).size
      expect([heard(first), heard(second), heard('go back')]).toEqual([1, 1, 0])
    },
  )
})

describe('long use', () => {
  const talk = readWav(readFileSync(TALK)).samples

  it('hears with two recognizers in turn', async () => {
    const page = await bench.freshPage()
    for (const phrase of ['band on', 'needle in', 'band on']) {
      await start(page, [phrase], { sha256 })
      await feed(page, roomNoise(600), spoken(phrase), roomNoise(1500))
      expect(await finalsOf(page)).toEqual([phrase])
      await page.evaluate(() => vosk.stop())
    }
    await page.context().close()
  })

  it.runIf(WIDE)(
    'does not grow in 9 minutes of talk without end while the phrases change',
    async () => {
      const page = await bench.freshPage()
      await start(page, ['band on', 'needle in'], { sha256 })
      await feed(page, talk)
      const talkFor = async (rounds: number): Promise<number> => {
        for (let i = 0; i < rounds; i++) {
          const phrases = i % 2 === 0 ? ['fresh tube', 'next tube'] : ['band on', 'needle in']
          await page.evaluate((list) => vosk.setPhrases(list), phrases)
          await page.evaluate(() => vosk.feedAgain(1))
        }
        const { heap_MB, script_MB } = await workerMemory(page)
        return heap_MB + script_MB
      }
      // The first minutes fill the decoder's own pools; after them nothing may be added.
      const rounds = (minutes: number): number => Math.ceil((minutes * 60 * 16_000) / talk.length)
      const early_MB = await talkFor(rounds(4))
      const late_MB = await talkFor(rounds(5))
      console.log(`worker's memory: ${early_MB.toFixed(1)} MB, then ${late_MB.toFixed(1)} MB`)
      expect(late_MB - early_MB).toBeLessThan(3)
      await page.context().close()
    },
    1_500_000,
  )
})
