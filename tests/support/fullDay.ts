import { dayRows } from '../../src/app/day/dayRows.ts'
import { dayRules } from '../../src/app/day/dayRules.ts'
import type { DayView } from '../../src/app/view/dayViewTypes.ts'
import type { DayEvent } from '../../src/core/day/dayEvents.ts'
import { dayList } from '../../src/core/day/dayList.ts'
import { foldDays } from '../../src/core/day/dayState.ts'
import type { ListedOrder } from '../../src/core/day/listedOrder.ts'
import type { OrderDraw, OrderTube } from '../../src/core/day/orderDraw.ts'
import type { Series } from '../../src/core/record/seriesRecord.ts'
import { dayEntries, sampleListed } from './sampleDay.ts'
import { SAMPLE_START_ms } from './sampleLog.ts'
import { shippedSite } from './site.ts'

const MINUTE_ms = 60_000
/** 10:10 of an invented day. */
export const FULL_DAY_ms = SAMPLE_START_ms + 70 * MINUTE_ms

type Change = Omit<Partial<ListedOrder>, 'order'> & { readonly order?: Partial<ListedOrder['order']> } // prettier-ignore

const people = new Map<string, ListedOrder['patient']>()

/** The same name is the same invented person. */
function patientOf(name: string): ListedOrder['patient'] {
  const n = people.size + 1
  const known = people.get(name)
  const [givenNames = '', familyName = ''] = name.split(' ')
  const patient = known ?? { fullName: name, givenNames, familyName, birthDate: `19${40 + n}-0${(n % 9) + 1}-1${n % 10}`, recordNumber: `MRN-0004${10 + n}`, sex: 'female' } // prettier-ignore
  people.set(name, patient)
  return patient
}

function order(id: string, name: string, tests: readonly string[], change: Change = {}) {
  const { order: more, ...rest } = change
  return sampleListed({
    id,
    patient: patientOf(name),
    order: { orderNumber: `O-${id}`, tests, priority: 'routine', provider: 'Dr. Pat Placeholder', ...more }, // prettier-ignore
    ...rest,
  })
}

const due = (kind: 'timed' | 'appointment', in_min: number, tolerance_min?: number) => ({
  due: { kind, at_ms: FULL_DAY_ms + in_min * MINUTE_ms, ...(tolerance_min && { tolerance_min }) },
})
const ward = (text: string) => ({ place: { kind: 'ward' as const, text } })
const room = (text: string) => ({ place: { kind: 'room' as const, text } })
const home = (text: string) => ({ place: { kind: 'home' as const, text } })

/** Orders in every status; all people are invented. */
// prettier-ignore
const ORDERS: readonly ListedOrder[] = [
  order('01', 'Ines Fauxley', ['bmp', 'troponin'], { ...ward('Ward 2, bed 4'), order: { priority: 'stat' } }),
  order('02', 'Omar Mockridge', ['vancomycin'], { ...ward('Ward 3, bed 1'), ...due('timed', 4, 15) }),
  order('03', 'Iris Fauxley', ['lipidPanel', 'glucose'], { ...room('Room 1'), fasting: true }),
  order('04', 'Robin Testwell', ['bmp', 'tsh'], room('Room 1')),
  order('05', 'Robin Testwell', ['cbc'], room('Room 1')),
  order('06', 'Kit Placemore', ['cbc'], { ...room('Room 2'), ...due('appointment', 20), questions: ['Which arm?'] }),
  order('07', 'Bo Quill', ['ferritin', 'cbc', 'bmp', 'vitaminD', 'folate'], { ...home('2 Example Lane'), order: { priority: 'urgent' } }),
  order('08', 'Cy Heath', ['pt'], { ...home('14 Sample Road'), ...due('appointment', 95) }),
  order('09', 'Di Moor', ['cbc'], room('Room 1')),
  order('10', 'Ed Marsh', ['bmp'], ward('Ward 3, bed 2')),
  order('11', 'Flo Rivers', ['tsh'], room('Room 2')),
  order('12', 'Gus Hill', ['bmp', 'ammonia'], ward('Ward 2, bed 9')),
  order('13', 'Hal Dale', ['cbc'], ward('Ward 2, bed 1')),
  order('14', 'Ida Brook', ['crossmatch'], ward('Ward 4, bed 3')),
  order('15', 'Jo Field', ['bmp'], room('Room 1')),
  order('16', 'Kay Wood', ['cbc'], room('Room 2')),
  order('17', 'Lea Lake', ['bmp'], room('Room 1')),
  order('18', 'Max Stone', ['tsh'], room('Room 1')),
  order('19', 'Ned Reed', ['cbc'], room('Room 2')),
  order('20', 'Ola Vale', ['bmp'], room('Room 2')),
]

const tube = (tests: readonly string[], more: Partial<OrderTube> = {}): OrderTube => ({ tubeId: 't1', tests, isSent: false, isReceived: false, ...more }) // prettier-ignore

const draw = (n: number, orderId: string, change: Partial<OrderDraw> = {}): OrderDraw => ({
  drawId: `D7-20261125-${String(n).padStart(4, '0')}`,
  orderIds: [orderId],
  opened_ms: FULL_DAY_ms - (60 - n) * MINUTE_ms,
  closed_ms: FULL_DAY_ms - (53 - n) * MINUTE_ms,
  tests: [],
  testsOf: {},
  tubes: [],
  missing: [],
  isRefused: false,
  ...change,
})

const { closed_ms: _closed, ...running } = draw(20, '09')

// prettier-ignore
const DRAWS: readonly OrderDraw[] = [
  running,
  draw(1, '12', { tubes: [tube(['bmp'])], missing: [{ test: 'ammonia', why: 'tubeLost', lost: 'droppedTube' }] }),
  draw(2, '13', { reason: 'notFound' }),
  draw(3, '14', { tubes: [tube(['crossmatch'], { isSent: true, rejected: { reason: 'RH', note: 'hemolyzed' } })] }),
  draw(4, '15', { tubes: [tube(['bmp'])] }),
  draw(5, '16', { tubes: [tube(['cbc'], { isSent: true })] }),
  draw(6, '17', { tubes: [tube(['bmp'], { isSent: true, isReceived: true })] }),
]

const SAID: readonly DayEvent[] = [
  { type: 'orderCalled', orderIds: ['04', '05'] },
  { type: 'orderNotFound', orderIds: ['10'] },
  {
    type: 'orderPutOff',
    orderIds: ['11'],
    until_ms: FULL_DAY_ms + 50 * MINUTE_ms,
    why: 'at X-ray',
  },
  { type: 'orderRefused', orderIds: ['18'], why: 'comes tomorrow' },
  { type: 'orderCancelled', orderIds: ['19'], by: 'Dr. Pat Placeholder', why: 'done elsewhere' },
  { type: 'recordErased', drawId: 'D7-20261125-0009', orderIds: ['20'] },
]

/** A day's list with orders in every status, and with the next draws of these series. All of it is invented. */
export function fullDay(series: readonly Series[] = []): DayView {
  const listed = ORDERS.map((each): DayEvent => ({ type: 'orderListed', order: each }))
  const state = foldDays(dayEntries([...listed, ...SAID]))
  const list = dayList(state, DRAWS, dayRules(shippedSite.catalogue), FULL_DAY_ms)
  const rows = dayRows(list, series, state, FULL_DAY_ms)
  return { rows, done: list.done, now_ms: FULL_DAY_ms, doubled: [], notTaken: [] }
}
