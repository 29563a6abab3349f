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
const OUT = 'public/prompts'
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

function speak(voice: string, texts: readonly string[]): Map<string, string> {
  const dir = mkdtempSync(join(tmpdir(), 'prompts-'))
  const list = join(dir, 'list.txt')
  writeFileSync(list, `${texts.join('\n')}\n`)
  execFileSync('python3', ['scripts/say.py', dir, '--file', list, '--voice', voice], {
    stdio: 'inherit',
  })
  return new Map(
    texts.map((text) => [text, join(dir, `${voice}__${text.replaceAll(' ', '_')}.wav`)]),
  )
}

function joinWavs(wavs: readonly string[], target: string): number {
  const padded = wavs.flatMap((wav, index) =>
    index === 0 ? [wav] : [`|sox -n -r 16000 -c 1 -p trim 0 ${PAUSE_s}`, wav],
  )
  execFileSync('sox', [...padded, '-C', '3', target, 'norm', '-3'])
  return Number(execFileSync('soxi', ['-D', target], { encoding: 'utf8' }))
}

function main(): void {
  const { prompts } = JSON.parse(readFileSync('src/data/prompts.en.json', 'utf8')) as {
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
      if (had && had.sha256 === textHash(text) && existsSync(join(OUT, had.file))) kept[key] = had
      else wanted.push([key, text])
    }
    const sentences = [...new Set(wanted.flatMap(([, text]) => parts(text)))]
    const wavs = sentences.length > 0 ? speak(voice, sentences) : new Map<string, string>()
    for (const [key, text] of wanted) {
      const file = `${voice}/${key}.ogg`
      const seconds = joinWavs(
        parts(text).map((part) => wavs.get(part) ?? ''),
        join(OUT, file),
      )
      kept[key] = { file, text, sha256: textHash(text), seconds }
    }
    const names = new Set(Object.values(kept).map(({ file }) => file))
    for (const name of readdirSync(join(OUT, voice))) {
      if (!names.has(`${voice}/${name}`)) rmSync(join(OUT, voice, name))
    }
    manifest[voice] = Object.fromEntries(Object.entries(kept).sort(([a], [b]) => (a < b ? -1 : 1)))
  }
  writeFileSync(path, `${JSON.stringify(manifest, null, 1)}\n`)
}

if (process.argv[1]?.endsWith('make-prompts.ts')) main()
