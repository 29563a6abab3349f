import { defined } from '../basics/defined.ts'
import { onCourse } from '../time/stamp.ts'
import type { LogEntry } from './entry.ts'
import type { DrawOpened } from './events.ts'
import { freshPuncture, type DrawState } from './state.ts'

/** The state that the opening of a draw gives. */
export function openedBy(opened: DrawOpened, entry: LogEntry): DrawState {
  const at = onCourse(undefined, entry.at)
  return {
    opened,
    openedAt: at,
    last: { ...entry, at },
    ...defined({ collecting: opened.collecting, patientLanguage: opened.patientLanguage }),
    collector: opened.collector,
    plan: opened.plan,
    identifiers: {},
    preparation: 'open',
    answers: {},
    decisions: (opened.approvals ?? []).map(({ about }) => ({ about, decision: 'proceed' })),
    armsSeen: [],
    supplies: false,
    hands: false,
    bands: [],
    tubes: opened.plan.tubes.map(({ id }) => ({ id, swaps: 0 })),
    past: [],
    puncture: freshPuncture(1, opened.collector.id),
    readBack: {},
    accessions: {},
    redrawn: {},
    redrawnGiven: 0,
    lostNumbers: [],
    unlabelled: [],
    noMore: false,
    lost: [],
    spun: [],
    sent: [],
    acts: [],
    moments: opened.sitting?.moments ?? [],
    leftOut: [],
    exceptions: [],
    seen: [],
    flags: [],
    cues: [],
    kept: [entry],
  }
}
