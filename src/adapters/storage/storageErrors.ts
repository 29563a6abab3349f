import { StorageError, type StorageFault } from '../../ports/storageFault.ts'

/** The browser's names of errors as our faults. */
const FAULT_OF: Readonly<Record<string, StorageFault>> = {
  QuotaExceededError: 'full',
  ConstraintError: 'movedOn',
  VersionError: 'newer',
  InvalidStateError: 'closed',
  AbortError: 'closed',
  SecurityError: 'refused',
  UnknownError: 'refused',
}

/** Gives whatever the browser threw as a `StorageError`, with the first one as its cause. */
export function storageErrorOf(error: unknown): StorageError {
  if (error instanceof StorageError) return error
  const { name, message } = error as { name?: string; message?: string }
  return new StorageError(FAULT_OF[name ?? ''] ?? 'unknown', message ?? String(error), error)
}

/** The connection was cut, by the browser, by an upgrade or by another tab: a new one may do. */
export function wasCut(error: unknown): boolean {
  return storageErrorOf(error).fault === 'closed'
}
