import type { NoteScope } from './noteTemplate.ts'

/** The fields that a line of the template can name, by what its section is repeated for. */
// prettier-ignore
export const NOTE_FIELD_NAMES: Readonly<Record<NoteScope, readonly string[]>> = {
  draw: [
    'drawId', 'date', 'offset', 'site', 'device', 'collectors', 'opened', 'closed', 'outcome', 'outcomeReason',
    'patientName', 'familyName', 'givenNames', 'birthDate', 'recordNumber', 'sex', 'weight', 'haematocrit',
    'orderNumber', 'priority', 'provider', 'tests', 'sitting', 'moments', 'leftOut', 'held', 'wentOn',
    'lastDoses', 'recollects',
    'identifiers', 'consent', 'patientLanguage', 'preparation', 'notPrepared', 'decisions',
    'approvals', 'supplies', 'hands', 'position', 'armsSeen', 'needle', 'wentToVein', 'attempts',
    'fasting', 'anticoagulant', 'latex', 'antisepticAllergy', 'restrictions', 'faintedBefore',
    'age', 'feeding', 'lastFeed', 'transfused', 'cardChecked',
    'labelsReadBack', 'labelsDone', 'aftercare', 'handsAfter', 'armsClosed', 'racked', 'spins', 'courier',
    'separated', 'aliquots', 'stored', 'bagged', 'dropped', 'received', 'rejected',
    'bloodDrawn', 'bloodPlanned', 'bloodLimit', 'bloodApproved',
    'policyVersion', 'planRevisions', 'entries', 'lastHash',
  ],
  puncture: [
    'number', 'arm', 'vein', 'collector', 'set', 'cleaned', 'antiseptic',
    'dry', 'bandsBefore', 'bands', 'needleIn', 'flash', 'pulled', 'lastTubeOff',
    'needleOut', 'shield', 'transfer', 'sharps', 'pressureOn', 'bleedingStopped', 'bandage',
  ],
  skin: [
    'number', 'site', 'collector', 'warming', 'warm', 'cleaned', 'antiseptic', 'dry', 'lanced', 'wiped', 'pressureOn',
    'sharps', 'bleedingStopped', 'bandage',
  ],
  band: ['number', 'band'],
  tube: [
    'position', 'name', 'tubeId', 'collector', 'fill', 'volume', 'nominal', 'on', 'off', 'mixed', 'handled', 'lot',
    'tests', 'handling', 'label', 'inPlaceOf', 'timePoint', 'circles', 'dried',
    'transferred',
  ],
  discard: ['position', 'name', 'tubeId', 'collector', 'volume', 'on', 'off', 'lot'],
  notDrawn: ['name', 'tests'],
  missing: ['test', 'why', 'reason'],
  swap: ['name', 'why', 'blood', 'number', 'at'],
  unlabelled: ['name', 'number', 'what', 'by', 'at'],
  exception: ['at', 'what', 'done'],
  flag: ['at', 'what'],
  risk: ['what', 'tubes', 'found', 'why'],
  remark: ['at', 'text'],
  retracted: ['at', 'what', 'takenBack'],
  policyChange: ['what', 'from', 'to'],
  clock: ['at', 'what'],
}
