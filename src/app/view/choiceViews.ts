import { defined } from '../../core/basics/defined.ts'
import { commandsWhere, rowOf } from '../../core/protocol/commandTable.ts'
import type { CommandKey } from '../../core/protocol/commands.ts'
import { commandOf, type OpenCommands } from '../../core/protocol/openCommands.ts'
import type { StepId } from '../../core/protocol/steps.ts'
import { wordingsOf, type PhraseBook } from '../site/phraseBook.ts'
import type { ChoiceView } from './drawViewTypes.ts'
import type { Words } from '../site/words.ts'
import { KEY_OF_ALWAYS, KEY_OF_PLACE, placesOf, type FixedPlace, type Place } from './places.ts'

export interface ChoiceWords {
  readonly words: Words
  readonly phrases: PhraseBook
  /** A patient hears what is said: neutral wordings are shown first. */
  readonly isDiscreet?: boolean | undefined
}

/** One command as a button with its words, its phrase and its key. */
export function choiceView(
  key: CommandKey,
  { words, phrases, isDiscreet }: ChoiceWords,
  as: { readonly key?: string; readonly place?: Place },
): ChoiceView {
  return {
    command: commandOf(key),
    label: words.commands[key],
    phrases: wordingsOf(phrases, key, isDiscreet),
    place: as.place ?? 'sheet',
    tone: rowOf(key).tone === 'stop' ? 'stop' : as.place === 'main' ? 'go' : 'plain',
    ...defined({ key: as.key }),
  }
}

/** Buttons of a step: the main one on the space bar, the others at their places. */
export function stepChoices(
  step: StepId,
  open: OpenCommands,
  from: ChoiceWords,
): readonly ChoiceView[] {
  const main = open.main ? [choiceView(open.main, from, { key: 'Space', place: 'main' })] : []
  const places = placesOf(step, open.step)
  const also = open.step.map((key) => {
    const place = places.get(key) ?? 'sheet'
    return choiceView(key, from, defined({ place, key: keyAt(place) }))
  })
  return [...main, ...also]
}

const keyAt = (place: Place): string | undefined =>
  isFixed(place) ? KEY_OF_PLACE[place] : undefined

const isFixed = (place: Place): place is FixedPlace => Object.hasOwn(KEY_OF_PLACE, place)

const SAFETY_ROW = commandsWhere(({ alwaysOpen }) => alwaysOpen === 'safetyRow')

/** The safety row, always in the same order. */
export function safetyChoices(from: ChoiceWords): readonly ChoiceView[] {
  return SAFETY_ROW.map((key) => choiceView(key, from, defined({ key: KEY_OF_ALWAYS[key] })))
}
