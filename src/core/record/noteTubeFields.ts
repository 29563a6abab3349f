import { dayMonthYear } from '../time/format.ts'
import type { Fill, PlannedTube } from '../plan/plan.ts'
import { limit } from '../policy/policy.ts'
import { HANDLED } from '../protocol/handled.ts'
import { isShortFill, mustBeMixed } from '../protocol/sharedPredicates.ts'
import { circlesText } from './cardFields.ts'
import type { DrawFacts, TubeFact } from './drawFacts.ts'
import { goesUnlabelled, isOfStranger, labelNumberOf } from './labeledTubes.ts'
import { amount, joined, type Fields, type NoteWords } from './noteWords.ts'
import { timePointText } from './sittingFields.ts'
import { syringeOf } from './syringeFacts.ts'
import { isAssumed, tubeVolume_mL } from './volumeDrawn.ts'
import { wholeHours } from '../time/wholeHours.ts'

/** A discard only fills the line: how full it was nobody judges, so its volume is an upper bound. */
export function discardFields(fact: TubeFact, words: NoteWords): Fields {
  const { tube, estimate_mL, fill } = fact
  const most = words.say('discard', 'most', { most_mL: amount(tube.nominal_mL) })
  return {
    position: String(fact.position),
    name: drawnTubeName(fact, words),
    tubeId: tube.id,
    collector: fact.collector.initials,
    volume:
      fill === 'empty' ? '0 mL' : estimate_mL === undefined ? most : `${amount(estimate_mL)} mL`,
    on: words.at(fact.on),
    off: words.at(fact.off),
    lot: lotText(fact, words),
  }
}

/** `On ice at once; within 15 min of collection`. */
function handlingText({ handling, timeLimit_min }: PlannedTube, { word, say }: NoteWords) {
  const hours = timeLimit_min === undefined ? undefined : wholeHours(timeLimit_min)
  const within =
    hours === undefined
      ? say('within', 'limit', { min: String(timeLimit_min) })
      : say('within', 'hours', { h: String(hours) })
  const limit = timeLimit_min === undefined ? [] : [within]
  return joined([...handling.map((mark) => word('handling', mark)), ...limit])
}

/** A tube that holds blood, as the template tells it. */
export function tubeFields(fact: TubeFact, facts: DrawFacts, words: NoteWords): Fields {
  const { at, word } = words
  const { tube } = fact
  const volume = tubeVolume_mL(fact)
  const read = facts.readBacks.get(tube.id)?.at(-1)
  const number = labelNumberOf(facts, tube.id)
  const own = facts.accessions.has(tube.id) ? ` (${word('label', 'laboratory')})` : ''
  const sent = goesUnlabelled(facts, tube.id) ? word('label', 'sentAsIs') : undefined
  const stranger = isOfStranger(facts) ? word('label', 'stranger') : undefined
  const unlabeled = tube.role === 'discard' || fact.fill === 'empty'
  const label = read
    ? `${number}${own} ${word('label', read.matches ? read.how : 'mismatch')} ${at(read.at)}`
    : undefined
  return {
    position: String(fact.position),
    name: drawnTubeName(fact, words),
    tubeId: tube.id,
    collector: fact.collector.initials,
    fill: word('fill', fillWord(fact, facts)),
    volume:
      volume === undefined
        ? undefined
        : isAssumed(fact)
          ? words.say('volume', 'assumed', { mL: amount(volume) })
          : `${amount(volume)} mL`,
    nominal: `${amount(tube.nominal_mL)} mL`,
    on: at(fact.on),
    off: at(fact.off),
    mixed:
      mixedText(fact, words) ?? (mustBeMixed(tube, fact) ? undefined : word('mixed', 'notNeeded')),
    lot: lotText(fact, words),
    handled: joined(
      HANDLED.filter((how) => tube.handling.includes(how) || fact.handled?.[how]).map((how) => {
        const when = fact.handled?.[how]
        return `${word('handled', how)} ${when ? at(when) : words.template.notRecorded}`
      }),
    ),
    circles: circlesText(facts, fact, words),
    dried: at(fact.dried),
    transferred: transferredText(fact, facts, words),
    tests: joined(tube.tests.map(words.testName), ', '),
    handling: handlingText(tube, words),
    timePoint: timePointText(fact, facts, words),
    label: stranger ?? sent ?? label ?? (unlabeled ? word('label', 'none') : undefined),
    inPlaceOf: joined(
      (facts.swaps.get(tube.id) ?? []).flatMap(({ number, why }) =>
        number === undefined ? [] : [`${number} (${word('swap', why)})`],
      ),
    ),
  }
}

/** Out of which syringe its blood came. */
function transferredText(fact: TubeFact, facts: DrawFacts, { say }: NoteWords): string | undefined {
  const syringe_mL = syringeOf(facts, fact)?.needleSet?.syringe_mL
  if (syringe_mL === undefined) return undefined
  const number = String(fact.puncture)
  return say('syringe', 'from', { syringe_mL: amount(syringe_mL), number })
}

/** A card with a drop on each circle is not short of blood, whatever its circles are like. */
function fillWord(fact: TubeFact, { opened }: DrawFacts): 'part' | 'circles' | 'open' | Fill {
  if (filledInPart(fact)) return 'part'
  const isShort = isShortFill(fact.tube, fact, limit(opened.policy, 'cardCircles_n'))
  return fact.fill === 'short' && !isShort ? 'circles' : (fact.fill ?? 'open')
}

/** As full as it was to be, which is less than its label says. */
const filledInPart = ({ tube, fill, estimate_mL }: TubeFact): boolean =>
  fill === 'full' && estimate_mL === undefined && tube.planned_mL !== undefined

/** "Mixing done" names no tube: where several waited, the note says which it was taken for. */
function mixedText({ mixed, mixedOf }: TubeFact, { at, say }: NoteWords): string | undefined {
  const when = at(mixed)
  if (when === undefined || mixedOf === undefined) return when
  return say('mixed', 'oldest', { at: when, n: String(mixedOf) })
}

/** A lot that nobody read is told as the one that was planned. */
function lotText({ tube, lotRead }: TubeFact, { say, word, at }: NoteWords): string {
  if (lotRead) {
    const { lot, expires } = lotRead
    return say('lot', expires === undefined ? 'readBare' : 'read', {
      lot,
      expires: expires && dayMonthYear(expires),
      at: at(lotRead.at),
    })
  }
  const { lot, expires } = tube
  return lot === undefined
    ? word('lot', 'notKnown')
    : say('lot', 'planned', { lot, expires: expires && dayMonthYear(expires) })
}

/** The tube's name; one that no plan names is told by its id. */
export const drawnTubeName = ({ tube, isPlanned }: TubeFact, { say }: NoteWords): string =>
  isPlanned ? tube.name : say('tube', 'unplanned', { id: tube.id })
