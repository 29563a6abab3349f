import { allWordings, type PhraseBook } from '../app/site/phraseBook.ts'
import { phraseFaultText } from '../app/voice/phraseTrial.ts'
import { checkPhrases } from '../core/voice/checkPhrases.ts'
import type { Lexicon } from '../core/voice/lexicon.ts'
import { openTogether } from '../core/voice/openTogether.ts'
import { errorText } from '../core/basics/errorText.ts'
import voiceTexts from '../data/en/voice.json' with { type: 'json' }

export interface Answer {
  readonly code: 0 | 1 | 2
  readonly stdout: string
  readonly stderr: string
}

/** Checks a phrases file. Code 0: will work, perhaps with warnings; 1: has errors; 2: not a phrases file. */
export function phrasesCheckCommand(text: string, lexicon: Lexicon): Answer {
  const book = readBook(text)
  if (typeof book === 'string') return { code: 2, stdout: '', stderr: `${book}\n` }
  const all = allWordings(book)
  const faults = checkPhrases(all, lexicon, openTogether)
  const errors = faults.filter(({ weight }) => weight === 'error').length
  const count = Object.values(all).flat().length
  const lines = faults.map((fault) => `${fault.weight}: ${phraseFaultText(fault, voiceTexts)}`)
  const sum = `${count} phrases, ${errors} errors, ${faults.length - errors} warnings`
  return { code: errors > 0 ? 1 : 0, stdout: `${[...lines, sum].join('\n')}\n`, stderr: '' }
}

function readBook(text: string): PhraseBook | string {
  let json: unknown
  try {
    json = JSON.parse(text)
  } catch (error) {
    return `This is not JSON: ${errorText(error)}`
  }
  const phrases = (json as { phrases?: unknown } | null)?.phrases
  const lists = typeof phrases === 'object' && phrases !== null ? Object.entries(phrases) : []
  if (lists.length === 0) return 'The file has no "phrases": { "command": ["wording", ...] }.'
  const bad = lists.find(
    ([, list]) => !Array.isArray(list) || list.some((phrase) => typeof phrase !== 'string'),
  )
  if (bad) return `"${bad[0]}" is not a list of wordings.`
  const { discreet = {} } = json as { discreet?: unknown }
  const isMap = typeof discreet === 'object' && discreet !== null
  const odd = isMap
    ? Object.entries(discreet).find(
        ([key, phrase]) => typeof phrase !== 'string' || !Object.hasOwn(phrases ?? {}, key),
      )?.[0]
    : 'discreet'
  return odd ? `"${odd}" is not a discreet wording of a command.` : (json as PhraseBook)
}
