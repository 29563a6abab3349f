import { CHOICE_KEYS, PLAIN_COMMANDS, type CommandKey } from '../protocol/commands.ts'

/** What can be said and what stands on the buttons, each to its command. */
export interface Vocabulary {
  readonly phrases: ReadonlyMap<string, CommandKey>
  readonly buttons: ReadonlyMap<string, CommandKey>
}

/**
 * The vocabulary of a language, from its phrases and the words of its buttons.
 * Case does not matter, nor does a full stop at the end.
 */
export function scenarioVocabulary(
  phrases: Readonly<Record<string, readonly string[] | undefined>>,
  buttons: Readonly<Record<string, string | undefined>>,
): Vocabulary {
  const keys: readonly CommandKey[] = [...PLAIN_COMMANDS, ...CHOICE_KEYS]
  const said = keys.flatMap((key) =>
    (phrases[key] ?? []).map((text) => [plain(text), key] as const),
  )
  const shown = keys.flatMap((key) => {
    const text = buttons[key]
    return text === undefined ? [] : [[plain(text), key] as const]
  })
  return { phrases: new Map(said), buttons: new Map(shown) }
}

export function plain(text: string): string {
  return text.trim().toLowerCase().replace(/\.$/, '')
}
