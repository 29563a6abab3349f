import type { HandOverView } from '../../src/app/view/handOverView.ts'
import type { HandOverRow, Leaving } from '../../src/core/handOver/handOverRow.ts'
import { FULL_DAY_ms } from './fullDay.ts'

const SERVER = 'https://fhir.example.org/r4'
const MINUTE_ms = 60_000

const row = (n: number, change: Partial<HandOverRow>): HandOverRow => {
  const about = `D7-20261125-000${n}`
  return {
    ...{ key: `draw/${about}`, kind: 'draw', about, mark: '40', hash: `a${n}` },
    state: 'waiting',
    since_ms: FULL_DAY_ms - (20 - n) * MINUTE_ms,
    ...change,
  }
}

const left = (n: number, change: Partial<Leaving> = {}): Leaving => ({
  ...{ id: String(n), kind: 'draw', about: `D7-20261125-000${n}`, key: `draw/D7-20261125-000${n}` },
  at_ms: FULL_DAY_ms - n * MINUTE_ms,
  ...{ offset_min: 60, hash: `a${n}`, size_B: 21_400 + n * 310, server: SERVER },
  ...{ answer: 'done', ...(n === 2 && { status: 200 }) },
  ...change,
})

/** A hand-over with something in every part; all of it invented. */
export const FULL_HAND_OVER: HandOverView = {
  state: 'sending',
  server: SERVER,
  faults: [],
  trouble: undefined,
  next_ms: undefined,
  rows: [
    row(1, { state: 'earlier' }),
    row(2, { state: 'handedOver', server: SERVER }),
    row(3, {
      state: 'refused',
      refusal: {
        by: 'server',
        status: 412,
        issues: [
          {
            severity: 'error',
            code: 'multiple-matches',
            text: 'Multiple matches were found for the condition Patient?identifier=https://example.org/mrn|MRN-000123',
          },
        ],
      },
    }),
    row(4, { state: 'refused', refusal: { by: 'device', faults: ['patientNumber'] } }),
    row(5, { state: 'dropped', by: 'R. Ash' }),
    row(6, { state: 'broughtIn' }),
    row(7, {}),
  ],
  left: [
    left(2),
    left(3, { answer: 'refused', status: 412 }),
    left(4, { answer: 'conflict', status: 409 }),
    left(5, { answer: 'unanswered' }),
  ],
  orders: {
    may: true,
    isFetching: false,
    last_ms: FULL_DAY_ms,
    listed_n: 4,
    elsewhere_n: 2,
    trouble: undefined,
    told: ['Order O-2 was not taken: Request 1 is a proposal and no order.'],
  },
  login: 'backend',
}
