import { score, type Heard, type Score } from './score.ts'

/** Who says a recording, by its name as `say.py` gives it: `bf_lily__needle_in.wav`; a folder tells it as well. */
export function voiceOf(file: string): string {
  const [folder, name] = file.includes('/') ? file.split('/').slice(-2) : ['', file]
  const [voice, ...rest] = (name ?? '').split('__')
  if (rest.length > 0 && voice) return voice
  return folder === undefined || folder === '' ? 'no voice named' : folder
}

/** A score for each voice that says something, in the order of their names; talk that means nothing is not in it. */
export function byVoice(heard: readonly Heard[]): readonly (readonly [string, Score])[] {
  const spoken = heard.filter(({ key }) => key !== '')
  const voices = [...new Set(spoken.map(({ file }) => voiceOf(file)))].sort()
  return voices.map((voice) => [voice, score(spoken.filter(({ file }) => voiceOf(file) === voice))])
}
