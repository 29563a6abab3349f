import type { CommandKey } from '../../core/protocol/commands.ts'
import { countsOf, type OwnVoice } from '../../core/voice/ownVoice.ts'
import type { MicLevels } from '../../core/voice/usualLevels.ts'
import type { PhraseBook } from '../site/phraseBook.ts'

interface CheckedCommand {
  readonly key: CommandKey
  /** It is heard among what this step opens, as in a draw. */
  readonly step: string
}

/** Each phrase is heard among those of its step, as in a draw: long and short, and one that must never be missed. */
export const CHECKED: readonly CheckedCommand[] = [
  { key: 'confirmPatient', step: 'identity' },
  { key: 'confirmSupplies', step: 'supplies' },
  { key: 'needleIn', step: 'needle' },
  { key: 'tubeFull', step: 'filling' },
  { key: 'bandOff', step: 'release' },
  { key: 'stopEverything', step: 'filling' },
]

/** What nearly every draw needs, in its order, and the safety phrases. */
export const LEARNED: readonly CheckedCommand[] = [
  { key: 'confirmPatient', step: 'identity' },
  { key: 'confirmConsent', step: 'consent' },
  { key: 'confirmPreparation', step: 'preparation' },
  { key: 'confirmSupplies', step: 'supplies' },
  { key: 'confirmHands', step: 'hands' },
  { key: 'bandOn', step: 'band' },
  { key: 'skinClean', step: 'cleanse' },
  { key: 'skinDry', step: 'dry' },
  { key: 'needleIn', step: 'needle' },
  { key: 'flashSeen', step: 'flash' },
  { key: 'bandOff', step: 'release' },
  { key: 'tubeFull', step: 'filling' },
  { key: 'tubeMixed', step: 'mix' },
  { key: 'tubeOn', step: 'tube' },
  { key: 'lastTube', step: 'lastTube' },
  { key: 'needleOut', step: 'needleOut' },
  { key: 'pressureOn', step: 'pressure' },
  { key: 'shieldClicked', step: 'shield' },
  { key: 'sharpsDone', step: 'sharps' },
  { key: 'bleedingStopped', step: 'bleeding' },
  { key: 'bandageOn', step: 'bandage' },
  { key: 'labelMatches', step: 'labels' },
  { key: 'stopEverything', step: 'filling' },
  { key: 'faint', step: 'filling' },
  { key: 'needlestick', step: 'filling' },
]

/** So many commands in one round, each with all its wordings: a minute's work. */
const ROUND_n = 6

/** A phrase that is asked for. */
export interface AskedPhrase extends CheckedCommand {
  readonly phrase: string
}

export interface CheckPlan {
  /** `check` whether one can be heard at all; `learn` which wordings are heard best. */
  readonly kind: 'check' | 'learn'
  readonly asked: readonly AskedPhrase[]
  /** Levels of this person's earlier checks. */
  readonly before: readonly MicLevels[]
}

/** Six phrases, each in the wording that the draw shows this person. */
export function checkPlan(own: PhraseBook, voice: OwnVoice | undefined): CheckPlan {
  const asked = CHECKED.map((each) => ({ ...each, phrase: own.phrases[each.key]?.[0] ?? '' }))
  return { kind: 'check', asked, before: voice?.levels ?? [] }
}

/**
 * One round of learning: the commands of which least is known, each with all its wordings. First every command in its
 * first wording, then in the next, so that nobody says two of the same one behind another.
 */
export function learnPlan(own: PhraseBook, voice: OwnVoice | undefined): CheckPlan {
  const wordings = (key: CommandKey): readonly string[] => own.phrases[key] ?? []
  const known = ({ key }: CheckedCommand): number =>
    Math.min(
      ...wordings(key).map((phrase) => (voice ? countsOf(voice, key, phrase).asked : 0)),
      Infinity,
    )
  const many = LEARNED.filter(({ key }) => wordings(key).length > 1)
  const round = [...many].sort((a, b) => known(a) - known(b)).slice(0, ROUND_n)
  const most = Math.max(0, ...round.map(({ key }) => wordings(key).length))
  const asked = Array.from({ length: most }, (_, nth) =>
    round.flatMap((each) => {
      const phrase = wordings(each.key)[nth]
      return phrase === undefined ? [] : [{ ...each, phrase }]
    }),
  ).flat()
  return { kind: 'learn', asked, before: voice?.levels ?? [] }
}
