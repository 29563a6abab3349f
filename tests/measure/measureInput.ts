import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import Papa from 'papaparse'
import type { PhraseBook } from '../../src/app/site/phraseBook.ts'
import { openAtStep } from '../../src/core/voice/openTogether.ts'
import { readWav } from '../support/wav.ts'
import { errorText } from '../../src/core/basics/errorText.ts'

/** The input cannot be measured; the message says what to mend. */
export class InputFault extends Error {}

export const RATE_Hz = 16_000

/** One recording and what it should bring about; an empty text means that nothing may happen. */
export interface Recording {
  readonly file: string
  readonly text: string
  readonly step: string
  readonly samples: Float32Array
}

/** Small letters and single spaces, as the model writes words. */
const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^a-z' ]+/g, ' ')
    .trim()
    .replace(/\s+/g, ' ')

/** Reads `labels.csv` (`file,text[,step]`) and its recordings. @throws InputFault */
export function readLabels(folder: string): readonly Recording[] {
  const path = join(folder, 'labels.csv')
  if (!existsSync(path)) throw new InputFault(`There is no labels.csv in ${folder}.`)
  const { data } = Papa.parse<string[]>(readFileSync(path, 'utf8').replace(/^\uFEFF/, ''), {
    skipEmptyLines: 'greedy',
  })
  const [first = [], ...rest] = data
  const names = first.map((name) => name.trim().toLowerCase())
  const titled = names.includes('file')
  const place = (name: string, otherwise: number): number =>
    titled ? names.indexOf(name) : otherwise
  const [fileAt, textAt, stepAt] = [place('file', 0), place('text', 1), place('step', 2)]
  if (textAt < 0) throw new InputFault('labels.csv has no column "text".')
  const rows = titled ? rest : data
  if (rows.length === 0) throw new InputFault('labels.csv names no recording.')
  return rows.map((row, i) => {
    const file = row[fileAt]?.trim() ?? ''
    const step = row[stepAt]?.trim() ?? ''
    if (!file) throw new InputFault(`labels.csv, recording ${i + 1}: no file is named.`)
    if (step && !openAtStep(step)) {
      throw new InputFault(`labels.csv, ${file}: there is no step "${step}".`)
    }
    return {
      file,
      text: plain(row[textAt] ?? ''),
      step,
      samples: readRecording(join(folder, file)),
    }
  })
}

/** A 16 kHz mono 16-bit WAV file. @throws InputFault */
export function readRecording(path: string): Float32Array {
  if (!existsSync(path)) throw new InputFault(`${path} is not there.`)
  let sound: ReturnType<typeof readWav>
  try {
    sound = readWav(readFileSync(path))
  } catch (error) {
    throw new InputFault(`${path}: ${errorText(error)}`)
  }
  if (sound.rate_Hz !== RATE_Hz) {
    throw new InputFault(`${path} has ${sound.rate_Hz} samples a second; it must have ${RATE_Hz}.`)
  }
  if (sound.samples.length === 0) throw new InputFault(`${path} is empty.`)
  return sound.samples
}

/** A book to be measured, which may have commands that the app does not know. */
export interface MeasuredBook extends PhraseBook {
  /** Safety commands: they act on the first hearing. */
  readonly actAtOnce: readonly string[]
}

/** A book from a list of phrases, one a line: each phrase is a command of its own. @throws InputFault */
export function bookOfList(text: string, safety: ReadonlySet<string>): MeasuredBook {
  const phrases = [...new Set(text.split('\n').map(plain).filter(Boolean))]
  if (phrases.length === 0) throw new InputFault('The phrases file is empty.')
  return {
    language: 'en',
    phrases: Object.fromEntries(phrases.map((phrase) => [phrase, [phrase]])),
    actAtOnce: phrases.filter((phrase) => safety.has(phrase)),
  }
}

/** Opens labeled phrases that the book does not have, each as a command of its own. */
export function withLabeled(book: MeasuredBook, recordings: readonly Recording[]): MeasuredBook {
  const known = new Set(Object.values(book.phrases).flatMap((list) => list ?? []))
  const added = [...new Set(recordings.map(({ text }) => text))].filter(
    (text) => text && !known.has(text),
  )
  return {
    ...book,
    phrases: { ...book.phrases, ...Object.fromEntries(added.map((text) => [text, [text]])) },
  }
}
