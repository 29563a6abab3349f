import { commandsWhere, rowOf } from '../../core/protocol/commandTable.ts'
import type { CommandKey } from '../../core/protocol/commands.ts'
import { commandOf, type OpenCommands } from '../../core/protocol/openCommands.ts'
import type { PhraseBook } from '../site/phraseBook.ts'
import type { ChoiceView } from './drawViewTypes.ts'
import type { Words } from '../site/words.ts'

export interface ChoiceWords {
  readonly words: Words
  readonly phrases: PhraseBook
}

/** One command as a button with its words, its phrase and its key. */
export function choiceView(
  key: CommandKey,
  { words, phrases }: ChoiceWords,
  as: { readonly key?: string; readonly main?: boolean },
): ChoiceView {
  return {
    command: commandOf(key),
    label: words.commands[key],
    phrases: phrases.phrases[key] ?? [],
    main: as.main ?? false,
    tone: rowOf(key).tone === 'stop' ? 'stop' : as.main ? 'go' : 'plain',
    ...(as.key === undefined ? {} : { key: as.key }),
  }
}

/** Buttons of the step: the main one on the space bar, the others on 1 to 9 in the order of the step table. */
export function stepChoices(open: OpenCommands, from: ChoiceWords): readonly ChoiceView[] {
  const main = open.main ? [choiceView(open.main, from, { key: 'Space', main: true })] : []
  const also = open.step.map((key, index) =>
    choiceView(key, from, index < 9 ? { key: String(index + 1) } : {}),
  )
  return [...main, ...also]
}

const SAFETY_ROW = commandsWhere(({ alwaysOpen }) => alwaysOpen === 'safetyRow')

/** The safety row, always in the same order. */
export function safetyChoices(from: ChoiceWords): readonly ChoiceView[] {
  return SAFETY_ROW.map((key) =>
    choiceView(key, from, key === 'goBack' ? { key: 'Backspace' } : {}),
  )
}
