import type { Findings } from '../findings.ts'
import type { OrderFields } from '../orderFields.ts'
import { quoted } from '../../../core/text/shownText.ts'
import { chooseByUse, isOver, type Used } from './chooseByUse.ts'
import type { HumanName, Identifier, Patient } from './resources.ts'
import { IDENTIFIER_USE, NAME_USE } from './useTables.ts'

type PatientFields = Pick<
  OrderFields,
  'fullName' | 'familyName' | 'givenNames' | 'birthDate' | 'recordNumber' | 'sex'
>

const BIRTH_TIME = 'http://hl7.org/fhir/StructureDefinition/patient-birthTime'

/** Who the patient is, and what R4 marks as changing that: active, deceased, link, use and period. */
export function patientFields(patient: Patient, today: string, findings: Findings): PatientFields {
  const item = 'Patient'
  if (patient.modifierExtension !== undefined) findings.refuse('modifier', { item })
  if (patient.implicitRules !== undefined) findings.refuse('implicitRules', { item })
  if (patient.active === false) findings.ask('patientInactive')
  if (patient.deceasedBoolean === true || patient.deceasedDateTime !== undefined) {
    findings.refuse('patientDeceased')
  }
  if (patient.link?.some(({ type }) => type === 'replaced-by')) findings.refuse('patientReplaced')
  const birthDate = patient.birthDate ?? ''
  const born = patient._birthDate?.extension?.find(({ url }) => url === BIRTH_TIME)?.valueDateTime
  if (born !== undefined && !born.startsWith(birthDate)) {
    findings.refuse('birthTime', { day: quoted(birthDate), time: quoted(born) })
  }
  return {
    ...nameOf(patient.name ?? [], today, findings),
    birthDate,
    recordNumber: recordNumber(patient.identifier ?? [], today, findings),
    sex: patient.gender ?? '',
  }
}

type NameFields = Pick<OrderFields, 'fullName' | 'familyName' | 'givenNames'>

const NO_NAME: NameFields = { fullName: '', familyName: '', givenNames: '' }

function nameOf(names: readonly HumanName[], today: string, findings: Findings): NameFields {
  const written = names.map((name): Used & HumanName & { readonly value: string } => ({
    ...name,
    value: (name.text ?? partsOf(name).join(' ')).trim(),
  }))
  const { chosen, others, verdict } = chooseByUse(written, NAME_USE, today)
  if (!chosen) {
    if (written.some(({ value }) => value !== '')) findings.refuse('oldNameOnly')
    return NO_NAME
  }
  const name = quoted(chosen.value)
  if (verdict === 'ask') findings.ask('nameUse', { name, use: quoted(chosen.use ?? '') })
  if (others.length > 0) {
    findings.ask('severalNames', { name, others: others.map((each) => quoted(each)).join(', ') })
  }
  const whole = names.find((each) => each.text?.trim() === chosen.value)
  const told = plain(chosen.value)
  const missing = whole && partsOf(whole).find((part) => !told.includes(plain(part)))
  if (missing) findings.ask('nameParts', { name, part: quoted(missing) })
  const parts = written.find((each) => each.use === chosen.use && each.value === chosen.value)
  return {
    fullName: chosen.value,
    familyName: parts?.family?.trim() ?? '',
    givenNames: (parts?.given ?? []).join(' ').trim(),
  }
}

/** The number typed MR (HL7 table 0203, medical record number), or the only one there is. */
function recordNumber(all: readonly Identifier[], today: string, findings: Findings): string {
  const typed = all.filter(({ type }) => type?.coding?.some(({ code }) => code === 'MR'))
  const current = all.filter((each) => each.use !== 'old' && !isOver(each.period?.end, today))
  const candidates = typed.length > 0 ? typed : current.length === 1 ? current : []
  const { chosen, others, verdict } = chooseByUse(candidates, IDENTIFIER_USE, today)
  if (!chosen) return ''
  const number = quoted(chosen.value)
  if (verdict === 'ask') findings.ask('numberUse', { number, use: quoted(chosen.use ?? '') })
  if (others.length > 0) {
    const list = others.map((each) => quoted(each)).join(', ')
    findings.ask('severalNumbers', { number, others: list })
  }
  return chosen.value
}

const partsOf = ({ given = [], family }: HumanName): string[] =>
  [...given, family ?? ''].filter((part) => part.trim() !== '')

const plain = (text: string): string => text.normalize('NFC').toLowerCase()
