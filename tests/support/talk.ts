import { readFileSync } from 'node:fs'
import { join } from 'node:path'

const FOLDER = join(import.meta.dirname, '..', 'fixtures', 'mic')

/** What a talkative patient and a colleague say, sentence by sentence, with their pauses. */
export const TALK_FILE = join(FOLDER, 'talkative.wav')

/** The phlebotomist wears the microphone; the patient and the colleague are this much softer. */
export const TALK_dB = -10

/** One sentence of the talk and where it stands in the recording. */
export interface TalkLine {
  readonly start_s: number
  readonly end_s: number
  readonly voice: string
  readonly words: string
}

/** The sentences of the talk, in order. */
export const TALK: readonly TalkLine[] = readFileSync(join(FOLDER, 'talkative.tsv'), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => {
    const [start = '', end = '', voice = '', words = ''] = line.split('\t')
    return { start_s: Number(start), end_s: Number(end), voice, words }
  })
