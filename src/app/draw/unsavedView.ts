import { fillText } from '../../core/basics/fillText.ts'
import { timeOfDay } from '../../core/time/format.ts'
import { troubleText, type StorageTexts } from '../site/storageTexts.ts'
import type { Unsaved } from './logWriter.ts'

/** What is recorded and not on the disk, ready worded. */
export interface UnsavedView {
  readonly since_ms: number
  readonly entries: number
  /** The draws that have something unsaved. */
  readonly drawIds: readonly string[]
  readonly text: string
  /** What the store said. */
  readonly why: string
}

/** One line for everything that waits, of this draw and of earlier ones. */
export function unsavedView(
  unsaved: readonly Unsaved[],
  texts: StorageTexts,
): UnsavedView | undefined {
  const [first] = unsaved
  if (!first) return undefined
  const n = unsaved.reduce((sum, { entries }) => sum + entries, 0)
  const since = timeOfDay({ at_ms: first.since_ms, offset_min: first.offset_min })
  const text = fillText(texts.unsaved, { n, since })
  const drawIds = unsaved.flatMap(({ drawId }) => drawId ?? [])
  const why = troubleText(first.error, texts)
  return { since_ms: first.since_ms, entries: n, drawIds, text, why }
}
