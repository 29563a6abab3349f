import { defined } from '../basics/defined.ts'
import { isDay } from '../time/format.ts'
import { LOCAL, v2 } from './codes.ts'
import { NAME, type FhirContext } from './context.ts'
import type { Patient, Practitioner } from './resources.ts'

/** An older record has the name as one text only: which part is the family name was not asked then. */
export function patient({ facts, head }: FhirContext): Patient {
  const { fullName, familyName, givenNames, birthDate, recordNumber, sex } = facts.opened.patient
  const type = { coding: [v2('0203', 'MR', 'Medical record number')] }
  return defined({
    ...head('Patient', NAME.patient),
    identifier: recordNumber ? [{ type, system: LOCAL.patient, value: recordNumber }] : [],
    name: [defined({ text: fullName, family: familyName, given: givenNames?.split(/\s+/) })],
    gender: sex,
    birthDate: isDay(birthDate) ? birthDate : undefined,
  })
}

/** One for each person at the chair, once. */
export function practitioners({ facts, head }: FhirContext): Practitioner[] {
  const people = new Map(facts.collectors.map(({ collector }) => [collector.id, collector]))
  return [...people.values()].map(({ id, name, initials }) => ({
    ...head('Practitioner', NAME.collector(id)),
    identifier: [
      { system: LOCAL.collector, value: id },
      { system: LOCAL.initials, value: initials },
    ],
    name: [{ text: name }],
  }))
}
