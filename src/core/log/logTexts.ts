import { fillText, type Text } from '../basics/fillText.ts'
import type { LogFault, LogFaultId } from './fault.ts'
import type { UnusualId } from './sense/unusual.ts'
import type { WantId } from './shape.ts'

/** Sentences of a verdict. */
export type VerdictWord =
  | 'unchanged'
  | 'added'
  | 'keyThisDevice'
  | 'keyTrusted'
  | 'keyUnknown'
  | 'proven'
  | 'notProven'
  | 'notProvenKey'
  | 'notClosed'
  | 'oldFormat'
  | 'end'

/** The question before a log with an unknown key is taken in. */
export type ImportWord = 'title' | 'question' | 'name' | 'nameHint' | 'take' | 'leave'

/** Whose keys are known here. */
export type KeyWord =
  | 'title'
  | 'about'
  | 'own'
  | 'ownKey'
  | 'none'
  | 'known'
  | 'forget'
  | 'forgetLabel'
  | 'add'
  | 'keyField'
  | 'keyHint'
  | 'nameField'
  | 'nameHint'
  | 'unread'
  | 'unkept'
  | 'ownUnread'
  | 'notAKey'
  | 'nameMissing'

/** What is said of a log that was brought in, from the language's `log` file. */
export interface LogTexts {
  readonly faults: Readonly<Record<LogFaultId, Text>>
  /** What a field should be: the end of a sentence. */
  readonly wants: Readonly<Record<WantId, Text>>
  readonly verdict: Readonly<Record<VerdictWord, Text>> & { readonly namedKey: string }
  readonly unusual: Readonly<Record<UnusualId, Text>>
  readonly import: Readonly<Record<ImportWord, string>>
  readonly origin: Readonly<Record<'title' | 'about', string>>
  readonly keys: Readonly<Record<KeyWord, string>>
}

/** A sentence for a person that says what is wrong with the log and where. */
export function logFaultSentence({ id, values, shape }: LogFault, texts: LogTexts): string {
  const want = shape ? fillText(texts.wants[shape.want], shape.values) : ''
  return fillText(texts.faults[id], { ...values, path: shape?.path ?? '', want })
}
