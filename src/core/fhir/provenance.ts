import { defined } from '../basics/defined.ts'
import { isoLocal } from '../time/format.ts'
import { authorsOf } from './authors.ts'
import { LOCAL } from './codes.ts'
import { NAME, type FhirContext } from './context.ts'
import type { AuditEvent, Provenance } from './resources.ts'

const PARTICIPANT = 'http://terminology.hl7.org/CodeSystem/provenance-participant-type'

/** Says whose work the resources are and which log they come from: its last hash stands for every entry. */
export function provenance(context: FhirContext): Provenance {
  const { facts, head, refTo, specimens, recorded, log, say, taggedBy } = context
  const hash = log.entries.at(-1)?.hash ?? ''
  return {
    ...head('Provenance', NAME.provenance),
    ...taggedBy(hash),
    target: [
      ...specimens.map(({ tube }) => refTo(NAME.specimen(tube.id, facts))),
      refTo(NAME.procedure),
      refTo(NAME.note),
    ],
    occurredPeriod: { start: isoLocal(facts.openedAt), end: recorded },
    recorded,
    agent: authorsOf(context).map((who) => ({
      type: { coding: [{ system: PARTICIPANT, code: 'author', display: 'Author' }] },
      who,
    })),
    entity: [
      {
        role: 'source',
        what: {
          identifier: { system: LOCAL.log, value: hash },
          display: say('log', { drawId: log.drawId, n: log.entries.length }),
        },
      },
    ],
  }
}

const EVENT_TYPE = {
  system: 'http://terminology.hl7.org/CodeSystem/iso-21089-lifecycle',
  code: 'originate',
  display: 'Originate/Retain Record Lifecycle Event',
} as const
const AMEND_TYPE = {
  ...EVENT_TYPE,
  code: 'amend',
  display: 'Amend (Update) Record Lifecycle Event',
} as const

/**
 * One for the making of the record, one for each addendum and each entry taken back. Each bears the hash of the entry
 * that it is about, so that it is the same event however far the log has grown since.
 */
export function auditEvents(context: FhirContext): AuditEvent[] {
  const { facts, head, refTo, log, say, taggedBy } = context
  const { device, site, collector } = facts.opened
  const observer = { display: say('device', { device }) }
  const source = defined({ site: site || undefined, observer })
  const base = { outcome: '0', source } as const
  const end = facts.closed?.at
  const closing = log.entries.findLast(({ event }) => event.type === 'drawClosed')
  const last = (end && closing) ?? log.entries.at(-1)
  const made: AuditEvent = {
    ...head('AuditEvent', NAME.audit),
    ...taggedBy(last?.hash ?? ''),
    ...base,
    type: EVENT_TYPE,
    action: 'C',
    period: defined({ start: isoLocal(facts.openedAt), end: end && isoLocal(end) }),
    recorded: isoLocal(end ?? facts.openedAt),
    agent: [{ who: refTo(NAME.collector(collector.id), collector.name), requestor: true }],
    entity: [
      {
        what: refTo(NAME.procedure),
        detail: [
          { type: say('entries'), valueString: String(last?.seq ?? 0) },
          { type: say('lastHash'), valueString: last?.hash ?? '' },
        ],
      },
    ],
  }
  const addenda = facts.addenda.map(({ at, by, why, hash }, index): AuditEvent => ({
    ...head('AuditEvent', `${NAME.audit}/addendum/${index}`),
    ...taggedBy(hash),
    ...base,
    type: AMEND_TYPE,
    action: 'U',
    recorded: isoLocal(at),
    agent: [{ who: { display: by.name }, requestor: true }],
    entity: [{ what: refTo(NAME.note), detail: [{ type: say('reason'), valueString: why }] }],
  }))
  const takenBack = facts.retracted.map(({ entry, at, hash }, index): AuditEvent => ({
    ...head('AuditEvent', `${NAME.audit}/retracted/${index}`),
    ...taggedBy(hash),
    ...base,
    type: AMEND_TYPE,
    action: 'U',
    recorded: isoLocal(at),
    agent: [{ who: { display: entry.by }, requestor: true }],
    entity: [
      {
        what: refTo(NAME.procedure),
        detail: [{ type: say('takenBack'), valueString: `${entry.seq} ${entry.event.type}` }],
      },
    ],
  }))
  return [made, ...addenda, ...takenBack]
}
