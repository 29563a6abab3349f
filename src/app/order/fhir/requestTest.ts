import { LOCAL } from '../../../core/fhir/codes.ts'
import { quoted } from '../../../core/text/shownText.ts'
import type { Findings } from '../findings.ts'
import type { OrderedTest, TestNaming } from '../orderFields.ts'
import { isOver } from './chooseByUse.ts'
import type { ServiceRequest } from './resources.ts'
import { checkSubject, type BundlePatient } from './subject.ts'
import { REQUEST_INTENT, REQUEST_STATUS } from './useTables.ts'

/**
 * The test that one request asks for, after every sign that it does not ask for it, or not now, or not of this
 * patient.
 */
export function requestTest(
  request: ServiceRequest,
  item: string,
  patient: BundlePatient,
  today: string,
  findings: Findings,
): OrderedTest | undefined {
  if (request.modifierExtension !== undefined) findings.refuse('modifier', { item })
  if (request.implicitRules !== undefined) findings.refuse('implicitRules', { item })
  if (request.doNotPerform === true) findings.refuse('doNotPerform', { item })
  checkCode(request.status, REQUEST_STATUS, 'requestStatus', item, findings)
  checkCode(request.intent, REQUEST_INTENT, 'requestIntent', item, findings)
  checkSubject(request.subject, item, patient, findings)
  checkTime(request, item, today, findings)
  askRest(request, item, findings)
  const names = namingsOf(request)
  if (names.length === 0) findings.refuse('noCode', { item })
  return names.length === 0 ? undefined : { item, names }
}

/** A code that is not in R4's value set says something that nobody here can know, so it is refused too. */
function checkCode(
  code: string,
  table: typeof REQUEST_STATUS,
  id: 'requestStatus' | 'requestIntent',
  item: string,
  findings: Findings,
): void {
  const verdict = Object.hasOwn(table, code) ? table[code] : 'refuse'
  if (verdict === 'refuse') findings.refuse(id, { item, code: quoted(code) })
  if (verdict === 'ask') findings.ask(id, { item, code: quoted(code) })
}

/** R4, ServiceRequest.occurrence[x]: when it is to be done. A day other than today is asked about. */
function checkTime(request: ServiceRequest, item: string, today: string, findings: Findings): void {
  const { occurrenceDateTime: day, occurrencePeriod: period } = request
  const start = period?.start?.slice(0, 10)
  const early = start !== undefined && start > today.slice(0, start.length)
  if (day !== undefined && !today.startsWith(day.slice(0, 10))) {
    findings.ask('otherDay', { item, day: quoted(day) })
  } else if (early || isOver(period?.end, today)) {
    const day_ = [period?.start, period?.end].filter(Boolean).join(' - ')
    findings.ask('otherDay', { item, day: quoted(day_) })
  } else if (request.occurrenceTiming !== undefined) findings.ask('otherTimes', { item })
}

/** What a person should have read before the needle, and what the planner cannot heed. */
function askRest(request: ServiceRequest, item: string, findings: Findings): void {
  if (request.asNeededBoolean === true || request.asNeededCodeableConcept !== undefined) {
    findings.ask('asNeeded', { item })
  }
  if ((request.specimen ?? []).length > 0) findings.ask('existingSpecimen', { item })
  for (const { text, coding } of request.bodySite ?? []) {
    findings.ask('bodySite', { item, site: quoted(text ?? coding?.[0]?.code ?? '') })
  }
  for (const { text } of request.note ?? []) {
    if (text?.trim()) findings.ask('note', { item, note: quoted(text, 200) })
  }
}

/** Only a code whose system is known here says which test it is; any other is a hint that a person must confirm. */
function namingsOf({ code }: ServiceRequest): TestNaming[] {
  const coded = (code?.coding ?? []).flatMap(({ system, code: value }): TestNaming[] => {
    if (!value) return []
    if (system === LOCAL.test) return [{ by: 'code', value }]
    if (system === 'http://loinc.org') return [{ by: 'loinc', value }]
    return [{ by: 'unknown', value, system: system ?? '' }]
  })
  return code?.text ? [...coded, { by: 'words', value: code.text }] : coded
}
