import { fillText, type Text } from '../../core/basics/fillText.ts'
import type { LogFault } from '../../core/log/fault.ts'
import { logFaultSentence, type LogTexts } from '../../core/log/logTexts.ts'
import { errorText } from '../../core/basics/errorText.ts'
import { StorageError, type StorageFault } from '../../ports/storageFault.ts'

/** `storage.json` of a language: what a person is told of the storage of the device. */
export interface StorageTexts {
  readonly faults: Readonly<Record<StorageFault, string>>
  /** The lasting line while something waits; `{n}` entries, `{since}` a time of day. */
  readonly unsaved: Text
  /** When the browser has thrown away what was stored. */
  readonly cleared: string
  /** When the number of a new draw could not be counted in time, and was drawn by lot. */
  readonly numberByLot: string
  /** In the record, before entries that were put behind those of another page; `{from}` and `{to}` are its numbers. */
  readonly foreignNote: string
  /** On the screen when that happens; `{n}` is how many. */
  readonly foreignSeen: Text
  /** Of a stored record that is damaged: `{seq}` is the first bad entry, `{reason}` a sentence. */
  readonly broken: string
  /** One page writes a draw. */
  readonly elsewhere: {
    readonly running: string
    readonly taken: string
    /** On the button. */
    readonly takeOver: string
    /** In the record of a draw that was taken over. */
    readonly note: string
  }
}

/** What to say of a stored record whose chain is broken: which entry is the first bad one, and why. */
export function brokenText(fault: LogFault, texts: StorageTexts, log: LogTexts): string {
  return fillText(texts.broken, { seq: fault.seq, reason: logFaultSentence(fault, log) })
}

/** What to tell of something that was thrown: the words for a storage fault, otherwise the error's own. */
export function troubleText(error: unknown, texts: StorageTexts): string {
  return error instanceof StorageError ? texts.faults[error.fault] : errorText(error)
}
