import { errorText } from '../../core/basics/errorText.ts'
import { StorageError, type StorageFault } from '../../ports/storageFault.ts'

/** `storage.json` of a language: what a person is told of the storage of the device. */
export interface StorageTexts {
  readonly faults: Readonly<Record<StorageFault, string>>
}

/** What to tell of something that was thrown: the words for a storage fault, otherwise the error's own. */
export function troubleText(error: unknown, texts: StorageTexts): string {
  return error instanceof StorageError ? texts.faults[error.fault] : errorText(error)
}
