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

export const VOICES = ['af_heart', 'am_michael'] as const
const root = join(import.meta.dirname, '..')
const OUT = join(root, 'public', 'prompts')
const TEXTS = join(root, 'src', 'data', 'prompts.en.json')
const SAY = join(root, 'scripts', 'say.py')
/** A prompt must be over before the next thing happens, seconds. */
export const LONGEST_s = 3
/** Paces tried one after the other until a prompt is short enough. */
const SPEEDS = [1, 1.1, 1.2] as const
/** Silence between the sentences of one prompt, seconds. */
const PAUSE_s = '0.12'

interface Spoken {
  readonly file: string
  readonly text: string
  readonly sha256: string
  readonly seconds: number
}
export type PromptManifest = Record<string, Record<string, Spoken>>

export const textHash = (text: string): string => createHash('sha256').update(text).digest('hex')

/** A prompt in parts that the speaker takes: one sentence each, no inner punctuation. */
export const parts = (text: string): string[] =>
  text
    .split(/[.,?!:;]+/)
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

/** Joins sentences to one file with the same peak for every prompt; gives its length, seconds. */
function joinWavs(wavs: readonly string[], target: string): number {
  const padded = wavs.flatMap((wav, index) =>
    index === 0 ? [wav] : [`|sox -n -r 16000 -c 1 -p trim 0 ${PAUSE_s}`, wav],
  )
  execFileSync('sox', [...padded, '-C', '3', target, 'norm', '-3'])
  return Number(execFileSync('soxi', ['-D', target], { encoding: 'utf8' }))
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
      const seconds = joinWavs(
        parts(text).map((part) => wavs.get(part) ?? ''),
        join(OUT, file),
      )
      spoken[key] = { file, text, sha256: textHash(text), seconds }
    }
    rmSync(dir, { recursive: true })
    left = left.filter(([key]) => (spoken[key]?.seconds ?? 0) > LONGEST_s)
  }
  left.forEach(([key, text]) => console.warn(`${voice} ${key} lasts too long; shorten: ${text}`))
  return spoken
}

function main(): void {
  const { prompts } = JSON.parse(readFileSync(TEXTS, 'utf8')) as {
    prompts: Record<string, string>
  }
  const path = join(OUT, 'manifest.json')
  const old = existsSync(path) ? (JSON.parse(readFileSync(path, 'utf8')) as PromptManifest) : {}
  const manifest: PromptManifest = {}
  for (const voice of VOICES) {
    mkdirSync(join(OUT, voice), { recursive: true })
    const kept: Record<string, Spoken> = {}
    const wanted: [string, string][] = []
    for (const [key, text] of Object.entries(prompts)) {
      const had = old[voice]?.[key]
      const good = had?.sha256 === textHash(text) && had.seconds <= LONGEST_s
      if (good && existsSync(join(OUT, had.file))) kept[key] = had
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

if (process.argv[1]?.endsWith('make-prompts.ts')) main()
