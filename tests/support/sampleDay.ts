import type { DayEntry, DayEvent } from '../../src/core/day/dayEvents.ts'
import type { ListedOrder } from '../../src/core/day/listedOrder.ts'
import { NO_PREVIOUS, sealEntry } from '../../src/core/log/seal.ts'
import { sha256, stampAt } from './sampleLog.ts'

/** An invented order, as a file would have listed it. */
export function sampleListed(change: Partial<ListedOrder> = {}): ListedOrder {
  return {
    id: 'KM47-20261125-L1',
    invented: false,
    patient: {
      fullName: 'Alex Invented',
      familyName: 'Invented',
      givenNames: 'Alex',
      birthDate: '1980-05-31',
      recordNumber: 'MRN-1',
    },
    order: { orderNumber: 'O-1', tests: ['cbc'], priority: 'routine' },
    preparation: { anticoagulant: 'notAsked', restrictions: {} },
    from: 'csv',
    questions: [],
    ...change,
  }
}

/** The chain of these events, one a second. */
export function dayEntries(events: readonly DayEvent[], by = 'ada-as'): readonly DayEntry[] {
  const entries: DayEntry[] = []
  for (const [index, event] of events.entries()) {
    const last = entries.at(-1)
    const head = { seq: index + 1, at: stampAt(index), by, source: 'touch' as const, event }
    entries.push(sealEntry<DayEvent>(head, last?.hash ?? NO_PREVIOUS, sha256))
  }
  return entries
}
