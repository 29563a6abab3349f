import { defined } from '../basics/defined.ts'
import { calendarDate } from '../time/format.ts'
import { readLotCode, type LotCode } from './lotCode.ts'
import { isSpecimenNumber, looksLikeSpecimenNumber } from './specimenNumber.ts'
import type { Command } from './commands.ts'
import { record, impossible, type Decision } from './decision.ts'
import * as draw from './facts.ts'
import type { DrawState, TubeProgress } from './state.ts'
import { stepOf } from './steps.ts'

type Scan = Extract<Command, { type: 'scanLabel' }>

interface Taking {
  readonly tubeId: string
  readonly text: string
  readonly usedIn?: string | undefined
  readonly how: 'scan' | 'typed'
  readonly confirmed: boolean
}

/**
 * Labels of the tubes with blood: by voice or touch the next unread one is read back, by scan the one that was
 * scanned. Where the laboratory's own labels are used, a number that is not known yet is taken for the next tube that
 * has none; read-back then compares with it.
 */
export function decideLabel(s: DrawState, command: Command, confirmed: boolean): Decision {
  if (s.closed) return impossible('closed')
  const lot = command.type === 'scanLabel' ? lotOf(s, command.text) : undefined
  if (lot) return lotRead(s, lot)
  if (command.type === 'scanLabel' && isWristband(s, command.text)) {
    return wristband(s, command.text)
  }
  if (!draw.anyBlood(s)) return impossible('noSpecimens')
  // The record says who read a label: whoever does it now has no name yet.
  if (s.colleagueTook) return impossible('colleagueUnnamed')
  switch (command.type) {
    case 'scanLabel':
      return scanned(s, command, confirmed)
    case 'takeAccession':
      return taken(s, { ...command, how: 'typed', confirmed })
    default: {
      const next = draw.toReadBack(s)[0]
      if (!next) return impossible('allReadBack')
      if (draw.awaitsAccession(s, next.id)) return impossible('noAccession')
      const number = draw.labelNumber(s, next.id)
      if (command.type === 'labelMatches') return record(readBack(next.id, number, 'read', true))
      return record(readBack(next.id, number, 'read', false), {
        type: 'flagRaised',
        flag: 'labelMismatch',
        detail: number,
      })
    }
  }
}

/** The lot in a scanned code: of a maker's GS1 code, or the very lot that was planned for a tube still to come. */
function lotOf(s: DrawState, text: string): LotCode | undefined {
  const year = Number(calendarDate(s.last.at).slice(0, 4))
  const code = readLotCode(text, year)
  if (code) return code
  const same = (lot: string | undefined): boolean =>
    lot !== undefined && isSpecimenNumber(text, lot) && !looksLikeSpecimenNumber(text.trim())
  const tube = s.tubes.find(({ id }) => same(draw.planned(s, id)?.lot))
  const lot = tube && draw.planned(s, tube.id)?.lot
  return lot === undefined ? undefined : { lot }
}

/**
 * The tube whose code was scanned: one that was planned of that lot, else the one on the holder, else the first still
 * to come of which nothing was scanned. Those that came off before are past guessing.
 */
function tubeOfLot(s: DrawState, lot: string): TubeProgress | undefined {
  const on = draw.tubeInHolder(s)
  const hand = [...(on ? [on] : []), ...draw.waitingTubes(s)]
  const known = new Set(
    s.kept.flatMap(({ event }) => (event.type === 'lotRead' ? event.tubeId : [])),
  )
  const open = hand.filter(({ id }) => !known.has(id))
  const ofThat = ({ id }: TubeProgress): boolean => draw.planned(s, id)?.lot === lot
  return open.find(ofThat) ?? hand.find(ofThat) ?? s.tubes.find(ofThat) ?? open[0] ?? hand[0]
}

/** Charts what stands on the tube. One past its last day is told and set right as any expired tube is. */
function lotRead(s: DrawState, { lot, expires }: LotCode): Decision {
  const tube = tubeOfLot(s, lot)
  if (!tube) return impossible('noTubeLeft')
  const { id } = tube
  const read = defined({ type: 'lotRead' as const, tubeId: id, lot, expires, how: 'scan' as const })
  const isOver = expires !== undefined && expires < calendarDate(s.last.at)
  if (!isOver) return record(read)
  return record(read, { type: 'exceptionRaised', kind: 'expiredTube', tubeId: id })
}

function scanned(s: DrawState, { text, usedIn }: Scan, confirmed: boolean): Decision {
  const bearing = draw
    .specimens(s)
    .filter(({ id }) => isSpecimenNumber(text, draw.labelNumber(s, id)))
  const found = bearing.find(({ id }) => s.readBack[id] !== true) ?? bearing[0]
  if (found && s.unlabelled.includes(found.id)) return impossible('goesUnlabelled')
  if (found) {
    return record(readBack(found.id, draw.labelNumber(s, found.id), 'scan', true))
  }
  if (isOfLostTube(s, text)) return lostTubeLabel(text)
  const waiting = draw.specimens(s).find(({ id }) => draw.awaitsAccession(s, id))
  // A label of ours that stands on no tube of this draw is another patient's.
  const isOurs = looksLikeSpecimenNumber(text.trim())
  if (waiting && !isOurs && isAccession(text)) {
    return taken(s, { tubeId: waiting.id, text, usedIn, how: 'scan', confirmed })
  }
  return record({
    type: 'flagRaised',
    flag: 'labelMismatch',
    detail: text.trim().slice(0, 80),
  })
}

/** The number stands on a tube that was lost: it is no label of the one drawn in its place. */
const isOfLostTube = (s: DrawState, text: string): boolean =>
  s.lostNumbers.some((number) => isSpecimenNumber(text, number))

const lostTubeLabel = (text: string): Decision =>
  record({ type: 'flagRaised', flag: 'lostTubeLabel', detail: text.trim().slice(0, 80) })

const bearsRecordNumber = (s: DrawState, text: string): boolean =>
  text.trim() === s.opened.patient.recordNumber

/**
 * While the patient is identified, and until there is a tube to label, what is scanned is a wristband: it bears the
 * record number of the order or not. A label of ours is none, and once there is blood only that number itself is one.
 */
const isWristband = (s: DrawState, text: string): boolean =>
  bearsRecordNumber(s, text) ||
  (!draw.anyBlood(s) && (stepOf(s).id === 'identity' || !looksLikeSpecimenNumber(text.trim())))

function wristband(s: DrawState, text: string): Decision {
  const matches = bearsRecordNumber(s, text)
  const checked = {
    type: 'identifierChecked',
    identifier: 'recordNumber',
    matches,
    how: 'scan',
  } as const
  const detail = text.trim().slice(0, 80)
  return matches
    ? record(checked)
    : record(checked, { type: 'flagRaised', flag: 'wristbandMismatch', detail })
}

/** One number on two tubes may be the laboratory's way, or a label of another tube or patient: a person answers. */
function taken(s: DrawState, { tubeId, text, usedIn, how, confirmed }: Taking): Decision {
  const accession = text.trim()
  if (isOfLostTube(s, accession)) return impossible('lostTubeLabel')
  const isNone = looksLikeSpecimenNumber(accession) || bearsRecordNumber(s, accession)
  if (!isAccession(accession) || isNone) {
    return impossible('unknownLabel')
  }
  const specimens = draw.specimens(s)
  if (!specimens.some(({ id }) => id === tubeId)) return impossible('unknownLabel')
  if (s.accessions[tubeId] === accession) return impossible('alreadyDone')
  const twice = specimens.some(({ id }) => {
    const other = s.accessions[id]
    return id !== tubeId && other !== undefined && isSpecimenNumber(accession, other)
  })
  if (usedIn !== undefined && !confirmed) return { kind: 'ask', ask: 'accessionElsewhere' }
  if (twice && !confirmed) return { kind: 'ask', ask: 'accessionTwice' }
  return record({ type: 'accessionTaken', tubeId, accession, how })
}

/** What can stand in bars: HL7 v2 gives an accession number no form of its own. */
const isAccession = (text: string): boolean => /^[\x20-\x7E]{1,40}$/.test(text.trim())

function readBack(tubeId: string, number: string, how: 'read' | 'scan', matches: boolean) {
  return { type: 'labelReadBack', tubeId, specimenNumber: number, how, matches } as const
}
