import { faulty, ok, type Result } from '../../core/basics/result.ts'
import type { Catalogue } from '../../core/catalogue/catalogue.ts'
import { jsonFaultSentence, parseJson } from '../../core/text/parseJson.ts'
import { fullNameOf } from '../../core/order/patientName.ts'
import { readText } from '../../core/text/readText.ts'
import { quoted } from '../../core/text/shownText.ts'
import { textFaultSentence } from '../../core/text/textFaultSentence.ts'
import { birthDateFault, OLDEST_y } from '../../core/order/birthDate.ts'
import { fillText } from '../../core/basics/fillText.ts'
import type { Texts } from '../site/texts.ts'
import { sittingsOf } from '../../core/series/sittings.ts'
import { SEXES } from '../../core/order/order.ts'
import { csvFields } from './csvFields.ts'
import { bundleFields } from './fhir/bundleFields.ts'
import { PRIORITIES } from './fhir/useTables.ts'
import { createFindings, type Findings } from './findings.ts'
import type { OrderDraft } from './orderDraft.ts'
import type { OrderFields } from './orderFields.ts'
import { createTestFinder } from './testFinder.ts'

/** What an order file fills the form with, and what somebody must confirm before it is planned. */
export interface OrderReading {
  readonly draft: Pick<OrderDraft, keyof OrderFields>
  readonly questions: readonly string[]
}

/** What is read with, besides the file. */
export interface OrderSite {
  readonly catalogue: Pick<Catalogue, 'tests' | 'series'>
  readonly texts: Pick<Texts, 'order' | 'text'>
  /** The local day, `YYYY-MM-DD`. */
  readonly today: string
}

/** One order is a few kilobytes; what is larger is something else. */
const MOST_ORDER_CHARACTERS = 1_000_000
const MOST_TESTS = 300

/**
 * Reads an order from the text of a FHIR R4 Bundle (JSON) or of a CSV file with one row. It only reads: with any
 * fault the whole order is refused, in sentences that each name the item they are about.
 */
export function readOrder(text: string, site: OrderSite): Result<OrderReading> {
  const findings = createFindings(site.texts.order)
  const fields = readFields(text, site, findings)
  const draft = fields && checked(fields, site, findings)
  const faults = findings.refusals()
  return draft && faults.length === 0
    ? ok({ draft, questions: findings.questions() })
    : faulty(faults)
}

function readFields(
  text: string,
  { texts, today }: OrderSite,
  findings: Findings,
): OrderFields | undefined {
  if (text.length > MOST_ORDER_CHARACTERS) return refuse(findings, 'tooLarge')
  const trimmed = text.replace(/^\uFEFF/, '').trim()
  if (trimmed === '') return refuse(findings, 'empty')
  if (!trimmed.startsWith('{')) return csvFields(trimmed, findings)
  const json = parseJson(trimmed)
  if (json.ok) return bundleFields(json.value, today, findings)
  for (const fault of json.faults) {
    findings.refuse('json', { why: jsonFaultSentence(fault, trimmed, texts.text.json) })
  }
  return undefined
}

function refuse(findings: Findings, id: 'tooLarge' | 'empty'): undefined {
  findings.refuse(id)
  return undefined
}

function checked(
  fields: OrderFields,
  site: OrderSite,
  findings: Findings,
): OrderReading['draft'] | undefined {
  const text = (field: TextField, use: 'name' | 'identifier'): string => {
    const read = readText(fields[field], use)
    if (read.ok) return read.value
    const { order, text: faults } = site.texts
    for (const fault of read.faults) {
      findings.refuse('text', { why: textFaultSentence(fault, order.fields[field], faults) })
    }
    return fields[field]
  }
  const { birthDate } = fields
  const familyName = text('familyName', 'name')
  const givenNames = text('givenNames', 'name')
  const fullName = text('fullName', 'name') || fullNameOf({ familyName, givenNames })
  if (fullName === '') findings.refuse('noName')
  const born = birthDateFault(birthDate, site.today)
  if (birthDate === '') findings.refuse('noBirthDate')
  else if (born === 'notADay') findings.refuse('birthDate', { day: quoted(birthDate) })
  else if (born)
    findings.refuse('text', { why: fillText(site.texts.order.draft[born], { years: OLDEST_y }) })
  const recordNumber = text('recordNumber', 'identifier')
  if (recordNumber === '') findings.refuse('noRecordNumber')
  const priority = PRIORITIES.find((known) => known === fields.priority.toLowerCase())
  if (!priority) {
    findings.refuse('priority', { found: quoted(fields.priority), known: PRIORITIES.join(', ') })
  }
  return {
    fullName,
    familyName,
    givenNames,
    birthDate,
    recordNumber,
    sex: SEXES.find((known) => known === fields.sex.toLowerCase()) ?? '',
    orderNumber: text('orderNumber', 'identifier'),
    provider: text('provider', 'name'),
    priority: priority ?? 'routine',
    tests: testsOf(fields, site, findings),
  }
}

type TextField =
  'fullName' | 'familyName' | 'givenNames' | 'recordNumber' | 'orderNumber' | 'provider'

/**
 * Codes of the catalogue as often as they are ordered. What stands more often than its series wants is drawn once when
 * somebody says so.
 */
function testsOf({ tests }: OrderFields, site: OrderSite, findings: Findings): readonly string[] {
  if (tests.length === 0) findings.refuse('noTest')
  if (tests.length > MOST_TESTS) {
    findings.refuse('tooManyTests', { most: MOST_TESTS })
    return []
  }
  const find = createTestFinder(site.catalogue)
  const found = tests.flatMap((test) => {
    const code = find(test, findings)
    return code === undefined ? [] : [{ code, item: test.item }]
  })
  const kept = [...found]
  for (const code of overMuch(found, site)) {
    const places = kept.flatMap((each, place) => (each.code === code ? [place] : []))
    const last = places.at(-1) ?? 0
    const first = kept[places[0] ?? 0]?.item ?? ''
    findings.ask('testTwice', { test: quoted(code), first, item: kept[last]?.item ?? '' })
    kept.splice(last, 1)
  }
  return kept.map(({ code }) => code)
}

/** Codes that stand more often than there are sittings for them, each as many times as it does. */
function overMuch(
  found: readonly { readonly code: string }[],
  { catalogue }: OrderSite,
): readonly string[] {
  const codes = found.map(({ code }) => code)
  const sittings = sittingsOf(codes, catalogue)
  return [...new Set(codes)].flatMap((code) => {
    const wanted = Math.max(1, sittings.filter(({ tests }) => tests.includes(code)).length)
    const over = codes.filter((other) => other === code).length - wanted
    return Array.from({ length: Math.max(0, over) }, () => code)
  })
}
