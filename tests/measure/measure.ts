import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { SAFETY_COMMANDS } from '../../src/core/protocol/commandTable.ts'
import { allWordings, type PhraseBook } from '../../src/app/site/phraseBook.ts'
import { SHIPPED_MODEL } from '../../src/app/site/speechModels.ts'
import { openAtStep } from '../../src/core/voice/openTogether.ts'
import type { MeasureArgs } from './measureArgs.ts'
import { bookOfList, InputFault, RATE_Hz, readLabels, readRecording, withLabeled, type MeasuredBook, type Recording } from './measureInput.ts' // prettier-ignore
import { measureBrowser, type MeasureBrowser } from './measureBrowser.ts'
import { BEFORE_s, endOfSpeech_s, noisyTrack } from './noisyTrack.ts'
import type { RunResult, TrackJob } from './page.ts'
import { score, type Heard, type Score } from './score.ts'
import { suppressedTracks } from './suppressedTracks.ts'
import { loadSuppressor } from './suppressor.ts'

const root = join(import.meta.dirname, '..', '..')
/** Length of sound that is decoded as fast as possible to find the real-time factor, s. */
const BURST_s = 60

/** How the app does with one model. */
export type AppScore = Score & {
  readonly realTimeFactor: number
  readonly load_ms: { readonly first: number; readonly cached: number }
  /** The recognizer's worker, and the whole page process with it, at their peaks, MB of 2^20 bytes. */
  readonly memory_MB: { readonly worker: number; readonly pageProcess: number | null }
  readonly states: readonly string[]
}

export interface Measured {
  readonly model: string
  readonly pace: 'real time' | 'fast'
  readonly noise: { readonly file: string; readonly snr_dB: number } | null
  readonly audio_s: number
  /** What stood before the recognizer, and the share of real time that it took. */
  readonly suppressor: { readonly name: 'RNNoise'; readonly realTimeFactor: number } | null
  readonly app: AppScore
  /** Another model on the same recordings, in the same run. */
  readonly compared: { readonly model: string; readonly app: AppScore } | null
  readonly stock: (Score & { readonly realTimeFactor: number }) | null
  readonly notes: readonly string[]
}

/** Runs a folder of recordings through the app's recognizer and rules in headless Chromium. @throws InputFault */
export async function measure(args: MeasureArgs, tell: (line: string) => void): Promise<Measured> {
  const file = JSON.parse(
    readFileSync(join(root, 'src', 'data', 'en', 'phrases.json'), 'utf8'),
  ) as PhraseBook
  const shipped: PhraseBook = { ...file, phrases: allWordings(file) }
  const recordings = readLabels(args.dir)
  const given =
    args.phrases === undefined
      ? { ...shipped, actAtOnce: SAFETY_COMMANDS }
      : listedBook(args.phrases, shipped)
  const book = withLabeled(given, recordings)
  const noise =
    args.noise === undefined || args.snr_dB === undefined
      ? undefined
      : { samples: readRecording(args.noise), snr_dB: args.snr_dB }
  const keyOf = keysOf(book)
  const model = modelWithSum(SHIPPED_MODEL)
  const other = args.compare === undefined ? undefined : modelWithSum(args.compare)

  let from = 0
  const plain = recordings.map(({ samples }) => {
    const track = noisyTrack(samples, noise && { ...noise, from })
    from += track.length
    return track
  })
  const suppress = args.suppress ? await loadSuppressor() : undefined
  if (suppress) tell('suppressing noise')
  const suppressed = suppress && suppressedTracks(plain, suppress, () => performance.now())
  const tracks = suppressed?.tracks ?? plain

  const browser = await measureBrowser()
  try {
    const jobs = recordings.map((recording, i): TrackJob => {
      const track = tracks[i] ?? new Float32Array(0)
      const path = `/track/${i}`
      browser.server.extra.set(path, toBytes(track))
      return { path, open: openFor(recording, book, keyOf, args.phrases !== undefined) }
    })
    const options = { fast: args.fast, actAtOnce: book.actAtOnce }
    const burst = jobsFor(BURST_s, jobs, recordings)
    const heard = (result: RunResult): readonly Heard[] => heardOf(recordings, result, keyOf)
    const app = await runApp({ browser, model, jobs, burst, options, heard, tell })
    const compared =
      other === undefined
        ? null
        : {
            model: other.file,
            app: await runApp({ browser, model: other, jobs, burst, options, heard, tell }),
          }
    const stock = args.stock ? await runStock() : null
    async function runStock() {
      tell('stock')
      const stockPage = await browser.open()
      const result = await stockPage.runStock(jobs, {
        fast: args.fast,
        phrases: [...keyOf],
        model,
      })
      await stockPage.close()
      return { ...score(heardOf(recordings, result, keyOf)), realTimeFactor: factor(result) }
    }
    return {
      model: model.file,
      pace: args.fast ? 'fast' : 'real time',
      noise:
        args.noise !== undefined && args.snr_dB !== undefined
          ? { file: args.noise, snr_dB: args.snr_dB }
          : null,
      audio_s: from / RATE_Hz,
      suppressor: suppressed
        ? { name: 'RNNoise', realTimeFactor: suppressed.realTimeFactor }
        : null,
      app,
      compared,
      stock,
      notes: notesOf(recordings, given, args),
    }
  } finally {
    await browser.close()
  }
}

/** Where a model of our own changes its sum, the run ends here and not in the browser. @throws InputFault */
function modelWithSum(file: string): Model {
  if (!existsSync(join(root, 'models', file))) {
    throw new InputFault(`There is no ${file} in the models folder.`)
  }
  const manifest = JSON.parse(
    readFileSync(join(root, 'models', 'manifest.json'), 'utf8'),
  ) as Record<string, { readonly sha256: string } | undefined>
  const sha256 = manifest[file]?.sha256
  return { file, ...(sha256 === undefined ? {} : { sha256 }) }
}

interface Model {
  readonly file: string
  readonly sha256?: string
}

interface AppRun {
  readonly browser: MeasureBrowser
  readonly model: Model
  readonly jobs: readonly TrackJob[]
  /** Those of them that are decoded as fast as possible, to find the real-time factor. */
  readonly burst: readonly TrackJob[]
  readonly options: { readonly fast: boolean; readonly actAtOnce: readonly string[] }
  readonly heard: (result: RunResult) => readonly Heard[]
  readonly tell: (line: string) => void
}

async function runApp(run: AppRun): Promise<AppScore> {
  const { browser, model, jobs, options } = run
  run.tell(`${model.file}: loading`)
  const first = await firstLoads(browser, model)
  const before = new Set(browser.peaks_B().keys())
  const page = await browser.open()
  const cached = await page.load(model)
  run.tell(`${model.file}: ${jobs.length} recordings`)
  const ran = await page.run(jobs, options)
  const memory = await page.memory()
  // Another model's page is another process where the system tells them apart.
  const peaks = [...browser.peaks_B()].filter(([pid]) => !before.has(pid)).map(([, peak]) => peak)
  const peak_B = peaks.length > 0 ? Math.max(...peaks) : NaN
  const burst = options.fast ? ran : await page.run(run.burst, { ...options, fast: true })
  await page.close()
  return {
    ...score(run.heard(ran)),
    realTimeFactor: factor(burst),
    load_ms: { first: first.ms, cached: cached.ms },
    memory_MB: {
      worker: memory.heap_MB + memory.script_MB,
      pageProcess: Number.isFinite(peak_B) ? peak_B / 2 ** 20 : null,
    },
    states: ran.states.map((state) => (state.kind === 'trouble' ? state.code : state.kind)),
  }
}

async function firstLoads(browser: MeasureBrowser, model: Model) {
  const page = await browser.open()
  const first = await page.load(model)
  await page.close()
  if (first.state?.kind === 'trouble')
    throw new Error(`The recognizer does not load: ${JSON.stringify(first.state)}`)
  return first
}

const toBytes = (track: Float32Array): Uint8Array =>
  new Uint8Array(Int16Array.from(track, (value) => Math.round(value * 32_767)).buffer)

const factor = ({ wall_ms, audio_ms }: RunResult): number => wall_ms / audio_ms

function listedBook(file: string, shipped: PhraseBook): MeasuredBook {
  const safety = new Set(SAFETY_COMMANDS.flatMap((key) => shipped.phrases[key] ?? []))
  try {
    return bookOfList(readFileSync(file, 'utf8'), safety)
  } catch (error) {
    if (error instanceof InputFault) throw error
    throw new InputFault(`${file} cannot be read.`)
  }
}

const keysOf = (book: PhraseBook): ReadonlyMap<string, string> =>
  new Map(
    Object.entries(book.phrases).flatMap(([key, list = []]) =>
      list.map((phrase) => [phrase, key] as const),
    ),
  )

/** With a step its own phrases, the safety ones and the labeled one; without, or with a list of phrases, all of them. */
function openFor(
  { step, text }: Recording,
  book: PhraseBook,
  keyOf: ReadonlyMap<string, string>,
  listed: boolean,
): TrackJob['open'] {
  if (!step || listed) return [...keyOf]
  const keys = openAtStep(step) ?? []
  const open = keys.flatMap((key) =>
    (book.phrases[key] ?? []).map((phrase) => [phrase, key] as const),
  )
  const own = keyOf.get(text)
  return own !== undefined && !keys.includes(own) ? [...open, [text, own]] : open
}

function jobsFor(
  length_s: number,
  jobs: readonly TrackJob[],
  recordings: readonly Recording[],
): readonly TrackJob[] {
  let sum = 0
  return jobs.filter((_, i) => {
    const wanted = sum < length_s
    sum += (recordings[i]?.samples.length ?? 0) / RATE_Hz + 1.9
    return wanted
  })
}

function heardOf(
  recordings: readonly Recording[],
  { tracks }: RunResult,
  keyOf: ReadonlyMap<string, string>,
): readonly Heard[] {
  return recordings.map(({ file, text, step, samples }, i) => {
    const end_ms = 1000 * (BEFORE_s + endOfSpeech_s(samples))
    return {
      file,
      text,
      step,
      key: text ? (keyOf.get(text) ?? text) : '',
      length_s: samples.length / RATE_Hz,
      finals: tracks[i]?.finals ?? [],
      acts: (tracks[i]?.acts ?? []).map(({ at_ms, ...act }) => ({
        ...act,
        latency_ms: at_ms - end_ms,
      })),
    }
  })
}

function notesOf(
  recordings: readonly Recording[],
  book: PhraseBook,
  { phrases, fast }: MeasureArgs,
): readonly string[] {
  const known = keysOf(book)
  const added = [
    ...new Set(recordings.map(({ text }) => text).filter((text) => text && !known.has(text))),
  ]
  return [
    ...(fast ? ['Latency is in audio time: how long the machine needs for it is not in it.'] : []),
    ...(added.length > 0 ? [`Opened because a label names them: ${added.join(', ')}.`] : []),
    ...(phrases === undefined && recordings.some(({ step }) => !step)
      ? ['Recordings without a step were heard with every phrase open.']
      : []),
  ]
}
