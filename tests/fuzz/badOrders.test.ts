import { describe, expect, it } from 'vitest'
import { readOrderFile } from '../../src/app/site/catalogue/readJson.ts'
import { planDraw } from '../../src/core/plan/planDraw.ts'
import { PRIORITIES, SEXES } from '../../src/core/order/order.ts'
import type { OrderReading } from '../../src/app/order/readOrder.ts'
import type { OrderFile } from '../../src/app/site/catalogue/readJson.ts'
import { bundle, patient, request } from '../support/fhirOrder.ts'
import { attack, frozen, PATIENCE } from '../support/fuzz/attack.ts'
import { birth, doubles, hollow, isDay, readable, when, whole, within } from '../support/fuzz/nonsense.ts' // prettier-ignore
import { handlers, site, TODAY } from '../support/fuzz/readers.ts'

const orderSite = frozen({
  catalogue: { tests: site.catalogue.tests },
  texts: { order: site.texts.order, text: site.texts.text },
  today: TODAY,
})
const codes = new Set(site.catalogue.tests.map(({ code }) => code))

async function readOrder(bytes: Uint8Array): Promise<OrderReading | undefined> {
  const reading = await handlers.order({ bytes, site: orderSite })
  return reading?.ok === true ? reading.value : undefined
}

function orderNonsense({ draft }: OrderReading): string[] {
  return [
    ...readable('name', draft.fullName),
    ...readable('record number', draft.recordNumber),
    ...readable('order number', draft.orderNumber, draft.orderNumber !== ''),
    ...readable('provider', draft.provider, draft.provider !== ''),
    ...birth(draft.birthDate, TODAY),
    ...when(draft.tests.length === 0, 'no test'),
    ...when(draft.tests.some((code) => !codes.has(code)), 'a test that is not in the catalog'),
    ...doubles('test', draft.tests),
    ...when(!PRIORITIES.includes(draft.priority), `priority ${draft.priority}`),
    ...when(!['', ...SEXES].includes(draft.sex), `sex ${draft.sex}`),
  ] // prettier-ignore
}

const CSV = [
  `fullName,birthDate,recordNumber,sex,orderNumber,provider,priority,tests
"Invented, Alex",1980-02-29,MRN-1,female,ORD-1,Dr. Pat Placeholder,urgent,sodium;urea\n`,
  `tests;recordNumber;birthDate;fullName
"creatinine";MRN-2;2019-12-31;Sam Sample\n`,
] as const

const FHIR = [
  bundle([
    patient(),
    request({ id: 'a', code: { coding: [{ system: 'http://loinc.org', code: '2951-2' }], text: 'Sodium' } }), // prettier-ignore
    request({ id: 'b', priority: 'stat', code: { text: 'Urea' } }),
  ]),
  bundle([
    patient({ deceasedBoolean: false, gender: 'female', birthDate: '2020-01-01' }),
    request({ occurrenceDateTime: TODAY, doNotPerform: false, authoredOn: TODAY }),
  ]),
] as const

const ORDER: OrderFile = {
  order: { orderNumber: 'ORD-1', tests: ['sodium', 'urea'], priority: 'routine' },
  patient: { fullName: 'Alex Invented', birthDate: '1980-02-29', recordNumber: 'MRN-1', sex: 'female', weight_kg: 70, haematocrit_pct: 42 }, // prettier-ignore
  preparation: { fasted_h: 10, anticoagulant: 'none', latexAllergy: false, restrictions: { left: 'injury' }, faintedBefore: false, earlierDraws_mL: 12 }, // prettier-ignore
  needleSet: { kind: 'winged', gauge: 21, needle_mm: 19, tubing_mm: 305, tubingBore_mm: 1.14 },
  today: TODAY,
  bodyTemperature_C: 37,
}

/** As the command does: what the planner has no objection to is taken. */
function planned(bytes: Uint8Array): OrderFile | undefined {
  const reading = readOrderFile(new TextDecoder().decode(bytes), site.texts)
  if (!reading.ok) return undefined
  const plan = planDraw({ ...site, today: TODAY, ...reading.value })
  return plan.problems.length === 0 ? reading.value : undefined
}

function planNonsense(file: OrderFile): string[] {
  const { order, patient: who, preparation, needleSet, stock = [], today = TODAY } = file
  return [
    ...hollow(file),
    ...when(!isDay(today), `today is ${today}`),
    ...birth(who.birthDate, today),
    ...readable('name', who.fullName, false),
    ...readable('record number', who.recordNumber, false),
    ...readable('order number', order.orderNumber, false),
    ...readable('provider', order.provider ?? '', false),
    ...when(order.tests.length === 0, 'no test'),
    ...when(order.tests.some((code) => !codes.has(code)), 'a test that is not in the catalog'),
    ...within('weight', who.weight_kg ?? 70, 0.2, 650),
    ...within('hematocrit', who.haematocrit_pct ?? 42, 1, 90),
    ...within('fasted', preparation.fasted_h ?? 0, 0, 10_000),
    ...within('drawn before', preparation.earlierDraws_mL ?? 0, 0, 20_000),
    ...within('needle', needleSet.needle_mm, 1, 200),
    ...within('tubing', needleSet.tubing_mm, 0, 3000),
    ...within('bore', needleSet.tubingBore_mm, 0, 20),
    ...within('body temperature', file.bodyTemperature_C ?? 37, 10, 47),
    ...stock.flatMap((lot) => [...when(!isDay(lot.expires), `expires ${lot.expires}`), ...within('count', lot.count, 0, 1e6), ...whole('count', lot.count)]),
  ] // prettier-ignore
}

describe('orders that were tampered with', PATIENCE, () => {
  it.each([
    ['CSV', { format: 'csv', texts: CSV }],
    ['a FHIR bundle', { format: 'json', texts: FHIR }],
  ] as const)('as %s', async (_name, seeds) => {
    const result = await attack({ seeds, read: readOrder, nonsense: orderNonsense })
    expect(result.broken).toEqual([])
    expect(result.accepted).toBeGreaterThan(0)
    expect(result.refused).toBeGreaterThan(result.accepted)
  })

  it('as the JSON of the plan command', async () => {
    const seeds = { format: 'json', texts: [JSON.stringify(ORDER)] } as const
    const result = await attack({ seeds, read: planned, nonsense: planNonsense })
    expect(result.broken).toEqual([])
    expect(result.accepted).toBeGreaterThan(0)
  })
})
