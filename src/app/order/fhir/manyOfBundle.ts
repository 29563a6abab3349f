import { isRecord } from '../../../core/basics/isRecord.ts'
import type { OrderPlace } from '../../../core/day/listedOrder.ts'
import { resourceOf, typeOf } from '../../../core/fhir/entryResource.ts'
import { parseJson } from '../../../core/text/parseJson.ts'
import { readText } from '../../../core/text/readText.ts'
import { localTime_ms } from '../../../core/time/localTime.ts'
import { zonedTime_ms, type Zone } from '../../../core/time/zone.ts'
import type { ListedWith, OrderPiece } from '../orderPiece.ts'

type Json = Readonly<Record<string, unknown>>

/**
 * Orders of a bundle, each as a bundle of its own with its patient: what is of one patient, under one number and for
 * one time is one order. `undefined` for what is no bundle with requests: it is read as it is, and says why.
 */
export function manyOfBundle(text: string, zone: Zone): readonly OrderPiece[] | undefined {
  const json = parseJson(text)
  if (!json.ok || !isRecord(json.value) || !Array.isArray(json.value['entry'])) return undefined
  const bundle = json.value
  const entries = json.value['entry'].filter(isRecord)
  const patients = entries.filter((entry) => typeOf(entry) === 'Patient')
  const groups = new Map<string, { requests: Json[]; patient: Json | undefined }>()
  for (const entry of entries.filter((each) => typeOf(each) === 'ServiceRequest')) {
    const request = resourceOf(entry)
    const patient = patientOf(request, patients)
    const of = patient ? patients.indexOf(patient) : 'none'
    // A request of nobody stands for itself: it must not be taken for another's.
    const alone = patient ? '' : String(groups.size)
    const key = JSON.stringify([of, alone, numberOf(request), timesOf(request)])
    const group = groups.get(key)
    if (group) group.requests.push(entry)
    else groups.set(key, { requests: [entry], patient })
  }
  if (groups.size === 0) return undefined
  return [...groups.values()].map(({ requests, patient }, index): OrderPiece => {
    const first = resourceOf(requests[0] ?? {})
    const own = [...(patient ? [patient] : []), ...requests]
    return {
      where: numberOf(first) || String(index + 1),
      text: JSON.stringify({ ...bundle, entry: own }),
      with: { ...dueOf(first, zone), ...placeOf(first) },
      ...addressesOf(requests),
    }
  })
}

const textOf = (value: unknown): string => (typeof value === 'string' ? value : '')
const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : [])
const partOf = (value: unknown, name: string): unknown =>
  isRecord(value) ? value[name] : undefined

/** R4, bundle.html, "Resolving references in Bundles"; a request that names nobody is of the only patient there is. */
function patientOf(request: Json, patients: readonly Json[]): Json | undefined {
  const subject = request['subject']
  const reference = textOf(partOf(subject, 'reference')).replace(/\/_history\/[^/]+$/, '')
  const number = textOf(partOf(partOf(subject, 'identifier'), 'value'))
  if (reference === '' && number === '') return patients.length === 1 ? patients[0] : undefined
  const found = patients.filter((entry) => {
    const fullUrl = textOf(entry['fullUrl'])
    const { id, identifier } = resourceOf(entry)
    if (reference === '') {
      return (
        Array.isArray(identifier) && identifier.some((each) => partOf(each, 'value') === number)
      )
    }
    const relative = `Patient/${textOf(id)}`
    return reference === fullUrl || reference === relative || fullUrl.endsWith(`/${reference}`)
  })
  return found.length === 1 ? found[0] : undefined
}

/** R4, bundle.html: `fullUrl` is where the resource stands, if it stands on a server. */
function addressesOf(requests: readonly Json[]): { readonly requests?: readonly string[] } {
  const urls = requests.map((entry) => textOf(entry['fullUrl']))
  return urls.every((url) => /^https?:\/\//.test(url)) ? { requests: urls } : {}
}

function numberOf(request: Json): string {
  const all = listOf(request['identifier'])
  const current = all.find((each) => partOf(each, 'use') !== 'old')
  return textOf(partOf(request['requisition'], 'value')) || textOf(partOf(current, 'value'))
}

const timesOf = ({ occurrenceDateTime, occurrencePeriod }: Json): unknown =>
  [occurrenceDateTime, occurrencePeriod] as const

/** A time of day makes it a timed draw; of a period with both ends the middle, and as far as its ends in time. */
function dueOf({ occurrenceDateTime, occurrencePeriod }: Json, zone: Zone): ListedWith {
  const at_ms = instant_ms(textOf(occurrenceDateTime), zone)
  if (at_ms !== undefined) return { due: { kind: 'timed', at_ms } }
  const start_ms = instant_ms(textOf(partOf(occurrencePeriod, 'start')), zone)
  const end_ms = instant_ms(textOf(partOf(occurrencePeriod, 'end')), zone)
  if (start_ms === undefined || end_ms === undefined || end_ms < start_ms) return {}
  const half_ms = (end_ms - start_ms) / 2
  return { due: { kind: 'timed', at_ms: start_ms + half_ms, tolerance_min: half_ms / 60_000 } }
}

/** R4 dateTime with a time of day and its zone; without one it is local. */
function instant_ms(text: string, here: Zone): number | undefined {
  const [, local, zone] =
    /^(\d{4}-\d{2}-\d{2}T\d{2}:\d{2})(?::\d{2}(?:\.\d+)?)?(Z|[+-]\d{2}:\d{2})?$/.exec(text) ?? []
  if (local === undefined) return undefined
  return zone === undefined ? zonedTime_ms(local, here) : localTime_ms(local, zoneOffset_min(zone))
}

function zoneOffset_min(zone: string): number {
  if (zone === 'Z') return 0
  const minutes = Number(zone.slice(1, 3)) * 60 + Number(zone.slice(4))
  return zone.startsWith('-') ? -minutes : minutes
}

function placeOf({ locationReference }: Json): { readonly place?: OrderPlace } {
  const [first] = listOf(locationReference)
  const read = readText(textOf(partOf(first, 'display')), 'name')
  return read.ok && read.value !== '' ? { place: { kind: 'ward', text: read.value } } : {}
}
