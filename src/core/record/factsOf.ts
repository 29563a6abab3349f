import { defined } from '../basics/defined.ts'
import type { DrawLog, LogEntry } from '../protocol/entry.ts'
import type { DrawEventType } from '../protocol/events.ts'
import { attempts, isSpecimen } from '../protocol/sharedPredicates.ts'
import { specimenWays, type SpecimenWay } from '../protocol/specimenWay.ts'
import type { Stamp } from '../time/stamp.ts'
import type { DrawFacts, PunctureFact } from './drawFacts.ts'
import { exceptionFacts } from './exceptionFacts.ts'
import { keptEntries } from '../protocol/keptEntries.ts'
import { isOfExposure } from './isOfExposure.ts'
import { namedHandovers } from './namedHandovers.ts'
import { timeCorrections, timedEntries } from './timedEntries.ts'
import { punctureFacts } from './punctureFacts.ts'
import { tubeFacts } from './tubeFacts.ts'

/**
 * Sorts the log of a draw into the facts that the note, the labels and the FHIR bundle are written from.
 * @throws RangeError when the log does not begin with the opening of a draw; `checkLog` refuses such a log first.
 */
export function factsOf(log: DrawLog): DrawFacts {
  const entries = timedEntries(log.entries)
  const { kept: counting, retracted } = keptEntries(entries)
  const kept = namedHandovers(counting)
  const first = kept[0]
  if (first?.event.type !== 'drawOpened') throw new RangeError('The log does not open a draw.')
  const opened = first.event
  const collectors = collectorsOf(kept)
  const punctures = punctureFacts(kept, opened)
  const revisions = ofType(kept, 'planRevised')
  const plan = revisions.at(-1)?.event.plan ?? opened.plan
  const known = [opened.plan, ...revisions.map((entry) => entry.event.plan)]
  const discards = new Set(
    known.flatMap((each) => each.tubes).flatMap(({ id, role }) => (role === 'discard' ? [id] : [])),
  )
  const tubes = tubeFacts(opened.drawId, kept, known, punctures, collectors)
  const specimens = tubes.drawn.filter((fact) => isSpecimen(fact.tube, fact))
  const ways = specimenWays(
    kept,
    specimens.map(({ tube }) => tube.id),
  )
  const drawn = new Set(tubes.drawn.filter((t) => t.fill !== 'empty').map((t) => t.tube.id))
  return defined({
    opened,
    openedAt: first.at,
    plan,
    planRevisions: revisions.map(({ at, event }) => ({ at, why: event.why })),
    collectors,
    identifiers: ofType(kept, 'identifierChecked').map(({ at, event }) => ({ ...event, at })),
    consent: consentOf(kept),
    wentToVein: ofType(kept, 'wentToVein').map(({ at, event: { why } }) => ({ why, at }))[0],
    preparationChecked: firstAt(kept, 'preparationChecked'),
    notPrepared: ofType(kept, 'notPrepared').map(({ at, event }) => ({ what: event.what, at })),
    decisions: ofType(kept, 'decisionNamed').map(({ at, event }) => ({ ...event, at })),
    answers: ofType(kept, 'answerTaken').reduce(
      (answers, { event }) => ({ ...answers, ...event.answer }),
      opened.preparation,
    ),
    supplies: firstAt(kept, 'suppliesChecked'),
    cardChecked: lastAt(kept, 'cardChecked'),
    hands: firstAt(kept, 'handsReady'),
    armsSeen: ofType(kept, 'armSeen').map(({ at, event }) => ({ ...event, at })),
    positions: ofType(kept, 'positionTaken').map(({ at, event }) => ({
      position: event.position,
      at,
    })),
    punctures,
    attempts: attemptsOf(punctures),
    tubes: tubes.drawn,
    swaps: tubes.swaps,
    readBacks: tubes.readBacks,
    accessions: tubes.accessions,
    redrawn: tubes.redrawn,
    unlabelled: tubes.unlabelled,
    notDrawn: plan.tubes.filter((tube) => !drawn.has(tube.id)),
    noFurtherPuncture: firstAt(kept, 'noFurtherPuncture'),
    labelsDone: lastAt(kept, 'labelsDone'),
    aftercare: firstAt(kept, 'aftercareTold'),
    patientLanguages: [
      ...(opened.patientLanguage ? [{ language: opened.patientLanguage }] : []),
      ...ofType(kept, 'patientLanguageChosen').map(({ at, event: { language } }) => ({
        language,
        at,
      })),
    ],
    aftercareLanguage: ofType(kept, 'aftercareTold')[0]?.event.language,
    handsAfter: lastAt(kept, 'handsCleaned'),
    racked: firstAt(kept, 'specimensRacked'),
    spins: spinsOf(ways),
    ways,
    moments: [
      ...(opened.sitting?.moments ?? []),
      ...ofType(kept, 'momentNoted').map(({ at, event: { moment, at_ms, why } }) =>
        defined({ moment, at_ms: at_ms ?? at.at_ms, told: at, why }),
      ),
    ],
    leftOut: ofType(kept, 'sittingsLeftOut').map(({ at, event: { sittings, why } }) => ({
      sittings,
      why,
      at,
    })),
    wentOn: ofType(kept, 'seriesWentOn').map(({ at, event: { holds, by, why } }) => ({
      holds,
      by,
      why,
      at,
    })),
    exceptions: exceptionFacts(kept).filter(({ kind, tubeId }) => {
      // A discard need not be full: that it was taken off early is no difficulty.
      return kind !== 'shortFill' || tubeId === undefined || !discards.has(tubeId)
    }),
    flags: ofType(kept, 'flagRaised').map(({ at, event }) => ({ ...event, at })),
    fists: ofType(kept, 'fistNoted').map(({ at }) => at),
    squeezes: ofType(kept, 'squeezeNoted').map(({ at }) => at),
    fell: ofType(kept, 'tubeFell').map(({ at, event }) => ({ tubeId: event.tubeId, at })),
    bloodApproved: ofType(kept, 'bloodApproved').map(({ at, event }) => ({ ...event, at })),
    remarks: ofType(kept, 'noteAdded').map(({ at, by, event }) => ({ text: event.text, by, at })),
    recordedAt: entries.at(-1)?.at ?? first.at,
    corrections: timeCorrections(log.entries, entries),
    clockSteps: ofType(kept, 'clockStepped').map(({ at, event }) => ({ by_ms: event.by_ms, at })),
    aways: ofType(kept, 'awayNoticed').map(({ at, event }) => ({
      away_ms: Number.isFinite(event.away_ms) ? event.away_ms : undefined,
      bandWasOn: event.bandWasOn,
      at,
    })),
    retracted: retracted
      .filter(({ entry }) => !isOfExposure(entry.event))
      .map(({ entry, by }) => ({ entry, at: by.at, hash: by.hash })),
    endReason: endReasonOf(kept),
    closed: closedOf(kept),
    addenda: ofType(kept, 'addendumMade').map(({ at, hash, event }) => ({ ...event, at, hash })),
  })
}

type EntryOf<T extends DrawEventType> = LogEntry<Extract<LogEntry['event'], { type: T }>>

/** Entries of one kind of event, in order. */
function ofType<T extends DrawEventType>(
  entries: readonly LogEntry[],
  type: T,
): readonly EntryOf<T>[] {
  return entries.filter((entry): entry is EntryOf<T> => entry.event.type === type)
}

const firstAt = (kept: readonly LogEntry[], type: DrawEventType): Stamp | undefined =>
  ofType(kept, type)[0]?.at

const lastAt = (kept: readonly LogEntry[], type: DrawEventType): Stamp | undefined =>
  ofType(kept, type).at(-1)?.at

/** Tubes of one run, started and ended together, stand together. */
function spinsOf(ways: ReadonlyMap<string, SpecimenWay>): DrawFacts['spins'] {
  const runs = new Map<string, DrawFacts['spins'][number]>()
  for (const [id, { spins }] of ways) {
    for (const spin of spins) {
      const key = `${spin.started.at_ms} ${spin.ended?.at_ms ?? ''} ${spin.act ?? ''}`
      runs.set(key, { ...spin, tubeIds: [...(runs.get(key)?.tubeIds ?? []), id] })
    }
  }
  return [...runs.values()].sort((a, b) => a.started.at_ms - b.started.at_ms)
}

function collectorsOf(kept: readonly LogEntry[]): DrawFacts['collectors'] {
  const opened = ofType(kept, 'drawOpened').map(({ at, event }) => ({
    collector: event.collector,
    from: at,
  }))
  const changes = ofType(kept, 'collectorChanged').map(({ at, event }) => ({
    collector: event.to,
    from: at,
  }))
  return [...opened, ...changes]
}

function consentOf(kept: readonly LogEntry[]): DrawFacts['consent'] {
  const given = ofType(kept, 'consentGiven').at(-1)
  const refused = ofType(kept, 'consentRefused').at(-1)
  if (refused && (!given || refused.seq > given.seq)) return { given: false, at: refused.at }
  if (!given) return undefined
  const { by, form } = given.event
  return defined({ given: true, by, form, at: given.at })
}

/** Everyone who put a needle in, in the order of their first, with how many. */
function attemptsOf(punctures: readonly PunctureFact[]): DrawFacts['attempts'] {
  const needles = punctures.flatMap(({ collector, needleIn }) =>
    needleIn.map((at) => ({ by: collector.id, needleIn: at, collector })),
  )
  const people = new Map(needles.map(({ by, collector }) => [by, collector]))
  return [...people].map(([id, collector]) => ({ collector, count: attempts(needles, id) }))
}

function endReasonOf(kept: readonly LogEntry[]): string | undefined {
  const closed = ofType(kept, 'drawClosed').at(-1)?.event.reason
  return closed ?? ofType(kept, 'noFurtherPuncture').at(-1)?.event.reason
}

function closedOf(kept: readonly LogEntry[]): DrawFacts['closed'] {
  const last = ofType(kept, 'drawClosed').at(-1)
  if (!last) return undefined
  const { outcome, reason } = last.event
  return defined({ outcome, at: last.at, reason })
}
