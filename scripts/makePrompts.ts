/**
 * Speaks the prompt texts into public/prompts: `npm run prompts:make`. Unchanged prompts are left as they are.
 * Needs what scripts/say.py names, and sox; the app itself needs none of it.
 */
import { createHash } from 'node:crypto'
import { execFileSync } from 'node:child_process'
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { LANGUAGES, type Language } from '../src/core/basics/language.ts'
import { RECORDED_VOICES } from '../src/data/voices.ts'
import { atLevel, peak_dB, speechLevel_dB } from './prompts/speechLevel.ts'

/** Every recorded voice with its language; a new one is named in `src/data/voices.ts`. */
export const VOICES = LANGUAGES.flatMap((language) =>
  RECORDED_VOICES[language].map((voice) => ({ voice, language })),
)
const root = join(import.meta.dirname, '..')
const OUT = join(root, 'public', 'prompts')
const SAY = join(root, 'scripts', 'say.py')
/** A prompt must be over before the next thing happens, seconds. */
export const LONGEST_s = 3
/** Paces tried one after the other until a prompt is short enough. */
const SPEEDS = [1, 1.1, 1.2] as const
/** Silence between the sentences of one prompt, seconds. */
const PAUSE_s = 0.12
/** Every prompt of every voice is as loud as this, so that the volume is set once. */
export const LEVEL_dB = -18
/** No ear hears less than this apart. */
export const LEVEL_SLACK_dB = 0.5
/** No peak of a file passes this. */
export const PEAK_dB = -1
/** Kept free for what the coder adds; the next lower one is taken where it adds more. */
const CEILINGS_dB = [-2, -3, -4, -5]
/** Decoders differ by less than this: at most 0.0003 dB, sox against Chromium, 1,062 files. */
const DECODERS_dB = 0.01
const RATE_Hz = 16_000
const RAW = ['-t', 'raw', '-e', 'float', '-b', '32', '-c', '1', '-r', String(RATE_Hz), '-']

interface Spoken {
  readonly file: string
  readonly text: string
  readonly sha256: string
  readonly seconds: number
  /** Level of the speech without its pauses, before coding. */
  readonly level_dB: number
}
export type PromptManifest = Record<string, Record<string, Spoken>>

export const textHash = (text: string): string => createHash('sha256').update(text).digest('hex')

/** A prompt in parts that the speaker takes: one sentence each, no inner punctuation. */
export const parts = (text: string): string[] =>
  text
    .split(/[.,?!:;¿¡]+/)
    .map((part) => part.trim())
    .filter(Boolean)

/** The sound file of each sentence. */
function speak(
  dir: string,
  voice: string,
  speed: number,
  texts: readonly string[],
): Map<string, string> {
  const list = join(dir, 'list.txt')
  writeFileSync(list, `${texts.join('\n')}\n`)
  const pace = ['--speed', String(speed)]
  execFileSync('python3', [SAY, dir, '--file', list, '--voice', voice, ...pace], {
    stdio: 'inherit',
  })
  return new Map(
    texts.map((text) => [text, join(dir, `${voice}__${text.replaceAll(' ', '_')}.wav`)]),
  )
}

function samplesOf(wav: string): Float32Array {
  const raw = execFileSync('sox', [wav, ...RAW])
  return new Float32Array(Uint8Array.from(raw).buffer)
}

const isClipped = (file: string): boolean => peak_dB(samplesOf(file)) > PEAK_dB - DECODERS_dB

/** Sentences, each at the same level, with pauses between them. */
function joined(wavs: readonly string[], ceiling_dB: number): Float32Array {
  const pause = new Float32Array(Math.round(RATE_Hz * PAUSE_s))
  const sentences = wavs.map((wav) => atLevel(samplesOf(wav), RATE_Hz, LEVEL_dB, ceiling_dB))
  const all = sentences.flatMap((samples, index) =>
    index === 0 ? [...samples] : [...pause, ...samples],
  )
  return atLevel(Float32Array.from(all), RATE_Hz, LEVEL_dB, ceiling_dB)
}

/** Joins sentences to one file, no peak of which is too high once coded; gives its length and level. */
function joinWavs(
  wavs: readonly string[],
  target: string,
): { readonly seconds: number; readonly level_dB: number } {
  for (const ceiling_dB of CEILINGS_dB) {
    const made = joined(wavs, ceiling_dB)
    execFileSync('sox', [...RAW, '-C', '3', target], { input: new Uint8Array(made.buffer) })
    if (isClipped(target)) continue
    return {
      seconds: Number(execFileSync('soxi', ['-D', target], { encoding: 'utf8' })),
      level_dB: Number(speechLevel_dB(made, RATE_Hz).toFixed(2)),
    }
  }
  throw new Error(`The peaks of ${target} stay above ${String(PEAK_dB)} dB once it is coded.`)
}

/** Speaks prompts, those that last too long once more at the next faster pace. */
function speakAll(
  voice: string,
  wanted: readonly (readonly [key: string, text: string])[],
): Record<string, Spoken> {
  const spoken: Record<string, Spoken> = {}
  let left = wanted
  for (const speed of SPEEDS) {
    if (left.length === 0) break
    const dir = mkdtempSync(join(tmpdir(), 'prompts-'))
    const wavs = speak(dir, voice, speed, [...new Set(left.flatMap(([, text]) => parts(text)))])
    for (const [key, text] of left) {
      const file = `${voice}/${key}.ogg`
      const made = joinWavs(
        parts(text).map((part) => wavs.get(part) ?? ''),
        join(OUT, file),
      )
      spoken[key] = { file, text, sha256: textHash(text), ...made }
    }
    rmSync(dir, { recursive: true })
    left = left.filter(([key]) => (spoken[key]?.seconds ?? 0) > LONGEST_s)
  }
  left.forEach(([key, text]) => console.warn(`${voice} ${key} lasts too long; shorten: ${text}`))
  return spoken
}

/** What is said in a language, by key. */
export function promptsOf(language: Language): Readonly<Record<string, string>> {
  const file = join(root, 'src', 'data', language, 'prompts.json')
  return (JSON.parse(readFileSync(file, 'utf8')) as { prompts: Record<string, string> }).prompts
}

function main(): void {
  const path = join(OUT, 'manifest.json')
  const old = existsSync(path) ? (JSON.parse(readFileSync(path, 'utf8')) as PromptManifest) : {}
  const manifest: PromptManifest = {}
  for (const { voice, language } of VOICES) {
    const prompts = promptsOf(language)
    mkdirSync(join(OUT, voice), { recursive: true })
    const kept: Record<string, Spoken> = {}
    const wanted: [string, string][] = []
    for (const [key, text] of Object.entries(prompts)) {
      const had = old[voice]?.[key]
      const fits =
        had && had.seconds <= LONGEST_s && Math.abs(had.level_dB - LEVEL_dB) <= LEVEL_SLACK_dB
      const file = join(OUT, had?.file ?? '')
      const stands = fits && had.sha256 === textHash(text) && existsSync(file)
      if (stands && !isClipped(file)) kept[key] = had
      else wanted.push([key, text])
    }
    const all = { ...kept, ...speakAll(voice, wanted) }
    const names = new Set(Object.values(all).map(({ file }) => file))
    for (const name of readdirSync(join(OUT, voice))) {
      if (!names.has(`${voice}/${name}`)) rmSync(join(OUT, voice, name))
    }
    manifest[voice] = Object.fromEntries(Object.entries(all).sort(([a], [b]) => (a < b ? -1 : 1)))
  }
  writeFileSync(path, `${JSON.stringify(manifest, null, 1)}\n`)
}

if (process.argv[1]?.endsWith('makePrompts.ts')) main()
