import { shownNumber } from '../basics/shownNumber.ts'
import { ownValue } from '../basics/ownValue.ts'
import { tooYoungForBandage } from '../protocol/facts.ts'
import type { DrawEvent } from '../protocol/events.ts'
import { isArmCloser, type ArmCloser } from '../protocol/exceptionTable.ts'
import { ARM_RESTRICTIONS, type ArmRestriction } from '../order/order.ts'
import { setOfKey } from '../flow/setKey.ts'
import { minutesSeconds } from '../time/format.ts'
import { discardFields, drawnTubeName, tubeFields } from './noteTubeFields.ts'
import { bandText } from './bandText.ts'
import { eventName } from './eventName.ts'
import { missingTests } from './missingTests.ts'
import { missingText } from './missingText.ts'
import type { SpecimenRisk } from './risk.ts'
import type { BandFact, DrawFacts, ExceptionFact, PunctureFact, SwapFact } from './drawFacts.ts'
import { amount, joined, personText, type Fields, type NoteWords } from './noteWords.ts'
import { drawFields } from './drawFields.ts'
import type { DrawLog } from '../protocol/entry.ts'
import type { NoteScope } from './noteTemplate.ts'
import { setText } from './setText.ts'

/** For each scope of the template the fields of every repetition. */
export function noteFields(
  facts: DrawFacts,
  log: DrawLog,
  words: NoteWords,
  risks: readonly SpecimenRisk[] = [],
): Readonly<Record<NoteScope, readonly Fields[]>> {
  const { at, word, say, template } = words
  const name = (id: string): string => tubeName(facts, id, words)
  const detailText = (detail: string): string =>
    isArmClosure(detail) ? word('restriction', detail) : name(detail)
  return {
    draw: [drawFields(facts, log, words)],
    skin: facts.punctures
      .filter((puncture) => puncture.skin !== undefined && isBegun(puncture))
      .map((puncture) => skinFields(puncture, facts, words)),
    puncture: facts.punctures
      .filter((puncture) => puncture.skin === undefined && isBegun(puncture))
      .map((puncture) => punctureFields(puncture, facts, words)),
    band: facts.punctures.flatMap(({ bands, number }) =>
      bands.map((band) => ({
        number: String(number),
        band: bandText(band, facts.opened.policy, words),
      })),
    ),
    tube: facts.tubes
      .filter(({ tube }) => tube.role !== 'discard')
      .map((tube) => tubeFields(tube, facts, words)),
    discard: facts.tubes
      .filter(({ tube }) => tube.role === 'discard')
      .map((tube) => discardFields(tube, words)),
    notDrawn: facts.notDrawn.map((tube) => ({
      name: tube.name,
      tests: joined(tube.tests.map(words.testName), ', ') ?? word('role', tube.role),
    })),
    missing: missingTests(facts).map((missing, index, { length }) => ({
      test: words.testName(missing.test),
      why: missingText(missing, words),
      // One reason was given for all of them: it stands once, below the last.
      reason:
        index === length - 1 && missing.reason !== undefined
          ? words.orOwn('endReason', missing.reason)
          : undefined,
    })),
    risk: risks.map(({ title, tubeIds, found, why }) => ({
      what: title,
      tubes: joined(tubeIds.map(name), ', '),
      found,
      why,
    })),
    swap: [...facts.swaps].flatMap(([id, swaps]) =>
      swaps.map((swap) => ({
        name: name(id),
        why: word('swap', swap.why),
        blood: bloodText(swap, words),
        number: swap.number,
        at: at(swap.at),
      })),
    ),
    unlabelled: facts.unlabelled.map(({ tubeId, number, how, by, at: when }) => ({
      name: name(tubeId),
      number,
      what: word('unlabelled', how),
      by,
      at: at(when),
    })),
    exception: facts.exceptions
      .filter(isOfPatient)
      .map((fact) => exceptionFields(fact, facts, words)),
    flag: facts.flags.map(({ flag, detail, at: when }) => ({
      at: at(when),
      what: `${template.flags[flag] ?? flag}${detail ? ` (${detailText(detail)})` : ''}`,
    })),
    remark: [
      ...facts.remarks,
      ...facts.fell.map((fell) => ({
        at: fell.at,
        text: `${word('event', 'tubeFell')}, ${name(fell.tubeId)}`,
      })),
      ...facts.squeezes.map((when) => ({ at: when, text: word('event', 'squeezeNoted') ?? '' })),
      ...facts.fists.map((when) => ({ at: when, text: word('event', 'fistNoted') ?? 'fistNoted' })),
    ]
      .sort((a, b) => a.at.at_ms - b.at.at_ms)
      .map((remark) => ({ at: at(remark.at), text: remark.text })),
    retracted: facts.retracted.map(({ entry, at: back }) => ({
      at: at(entry.at),
      what: eventText(entry.event, facts, words),
      takenBack: at(back),
    })),
    policyChange: [
      ...facts.opened.policyChanges.map(({ key, from, to }) => ({
        what: ownValue<string | undefined>(template.limits, key) ?? key,
        from: `${from}${unitOf(key)}`,
        to: `${to}${unitOf(key)}`,
      })),
      ...(facts.opened.fillCorrections ?? []).map(({ set, factor, by, tubes }) => ({
        what: say('needle', 'corrected', {
          set: setText(setOfKey(set), words),
          by,
          tubes: String(tubes),
        }),
        from: '1',
        to: shownNumber(factor, 2),
      })),
    ],
    clock: [
      ...facts.clockSteps.map((step) => ({
        at: at(step.at),
        what: say('clock', 'stepped', { length: minutesSeconds(Math.abs(step.by_ms)) }),
      })),
      ...facts.corrections.map((run) => ({
        at: at(run.from),
        what: say('clock', 'corrected', {
          entries: String(run.entries),
          from: at(run.from),
          to: at(run.to),
          by: `${run.by_ms < 0 ? '-' : '+'}${minutesSeconds(Math.abs(run.by_ms))}`,
        }),
      })),
      ...facts.aways.map((away) => ({
        at: at(away.at),
        what:
          (away.away_ms === undefined
            ? word('clock', 'awayUnknown')
            : say('clock', 'away', { length: minutesSeconds(away.away_ms) })) +
          (away.bandWasOn ? ` ${word('clock', 'bandWasOn')}` : ''),
      })),
    ],
  }
}

const isArmClosure = (detail: string): detail is ArmRestriction | ArmCloser =>
  isArmCloser(detail) || ARM_RESTRICTIONS.some((known) => known === detail)

/** What befell the person who drew is for the exposure record. */
const isOfPatient = ({ kind }: ExceptionFact): boolean => kind !== 'needlestick'

/** Nothing was done at the arm yet: there is no puncture to tell of. */
const isBegun = (p: PunctureFact): boolean =>
  p.arm !== undefined || p.cleaned !== undefined || p.bands.length > 0 || p.needleIn.length > 0

const bandageText = (p: PunctureFact, facts: DrawFacts, { at, word }: NoteWords) =>
  at(p.bandage) ?? (tooYoungForBandage(facts) ? word('skin', 'none') : undefined)

/** A place that a lancet opened, where there is neither band nor needle. */
function skinFields(p: PunctureFact, facts: DrawFacts, words: NoteWords): Fields {
  const { at, word, say } = words
  const collecting = p.skin
  return {
    number: String(p.number),
    site:
      p.arm &&
      collecting &&
      say('skin', p.elsewhere ? 'elsewhere' : 'site', {
        side: word('arm', p.arm),
        place: word('collecting', collecting),
      }),
    collector: personText(p.collector),
    warming: at(p.warming),
    warm: at(p.warm),
    cleaned: at(p.cleaned),
    antiseptic: p.cleanedWith && word('antiseptic', p.cleanedWith),
    dry: at(p.dry),
    lanced: joined(
      p.needleIn.map((when) => at(when) ?? ''),
      ', ',
    ),
    wiped: at(p.wiped),
    pressureOn: pressedText(p, words),
    sharps: at(p.sharps),
    bleedingStopped: at(p.bleedingStopped),
    bandage: bandageText(p, facts, words),
  }
}

function punctureFields(p: PunctureFact, facts: DrawFacts, words: NoteWords): Fields {
  const { at, word } = words
  return {
    number: String(p.number),
    arm: p.arm && word('arm', p.arm),
    vein: p.vein && word('vein', p.vein),
    collector: personText(p.collector),
    set: p.needleSet && setText(p.needleSet, words, p.setIsNamed),
    cleaned: at(p.cleaned),
    antiseptic: p.cleanedWith && word('antiseptic', p.cleanedWith),
    dry: at(p.dry),
    bandsBefore: joined(
      p.bands
        .filter((band) => isSearch(band, p))
        .map((band) => bandText(band, facts.opened.policy, words)),
    ),
    bands: joined(
      p.bands
        .filter((band) => !isSearch(band, p))
        .map((band) => bandText(band, facts.opened.policy, words)),
    ),
    needleIn: joined(
      p.needleIn.map((when) => at(when) ?? ''),
      ', ',
    ),
    flash: at(p.flash) ?? (showsNoFlash(p) ? word('flash', 'straight') : undefined),
    pulled: pulledText(p, words),
    transfer: at(p.transfer) ?? (p.needleSet?.syringe_mL ? word('syringe', 'none') : undefined),
    lastTubeOff: at(p.lastTubeOff),
    needleOut: at(p.needleOut),
    shield: at(p.shield),
    sharps: at(p.sharps),
    pressureOn: pressedText(p, words),
    bleedingStopped: at(p.bleedingStopped),
    bandage: bandageText(p, facts, words),
  }
}

/** Every time somebody pressed: `09:02:26, bleeding thought to have stopped 09:02:56; bled again, pressed from ...`. */
function pressedText(p: PunctureFact, { at, say }: NoteWords): string | undefined {
  const times = (p.pressedBefore ?? []).map(({ from, stopped, bandage }) =>
    [
      at(from) ?? '',
      ...(stopped ? [say('pressed', 'stopped', { at: at(stopped) })] : []),
      ...(bandage ? [say('pressed', 'bandage', { at: at(bandage) })] : []),
    ].join(', '),
  )
  return (
    [...times, at(p.pressureOn) ?? ''].reduce((before, from) =>
      say('pressed', 'again', { before, from }),
    ) || undefined
  )
}

const showsNoFlash = ({ needleSet }: PunctureFact): boolean =>
  needleSet?.kind === 'straight' && needleSet.syringe_mL === undefined

/** `09:14:05, about 8.2 mL`; of a puncture by syringe where nobody said it. */
function pulledText(p: PunctureFact, { at, say, word }: NoteWords): string | undefined {
  if (p.needleSet?.syringe_mL === undefined) return undefined
  if (!p.pulled) return word('syringe', 'none')
  const { isShort, mL } = p.pulled
  const how = mL === undefined ? 'shortUnknown' : isShort ? 'short' : 'full'
  return say('syringe', how, { at: at(p.pulled.at), mL: mL === undefined ? '' : amount(mL) })
}

const bloodText = ({ blood_mL }: SwapFact, { say, word }: NoteWords): string | undefined =>
  blood_mL === 0
    ? undefined
    : blood_mL === undefined
      ? word('swapped', 'unknown')
      : say('swapped', 'blood', { blood_mL: amount(blood_mL) })

/** The band was on and off again before the needle: to find the vein, apart from the stretch of the draw. */
export const isSearch = ({ off }: BandFact, { needleIn: [first] }: PunctureFact): boolean =>
  off !== undefined && first !== undefined && off.at_ms <= first.at_ms

function exceptionFields(fact: ExceptionFact, facts: DrawFacts, words: NoteWords): Fields {
  const what = [
    words.template.exceptions[fact.kind] ?? fact.kind,
    ...(fact.tubeId ? [tubeName(facts, fact.tubeId, words)] : []),
    ...(fact.note ? [fact.note] : []),
  ]
  return {
    at: words.at(fact.at),
    what: what.join(', '),
    done: fact.ended
      ? `${words.orOwn('endedBy', fact.ended.how)} ${words.at(fact.ended.at)}`
      : words.word('endedBy', 'open'),
  }
}

function tubeName(facts: DrawFacts, id: string, words: NoteWords): string {
  const drawn = facts.tubes.find(({ tube }) => tube.id === id)
  if (drawn) return drawnTubeName(drawn, words)
  return facts.plan.tubes.find((tube) => tube.id === id)?.name ?? id
}

/** A few words for an entry that was taken back. */
function eventText(event: DrawEvent, facts: DrawFacts, words: NoteWords): string {
  const text = eventName(event, words.template)
  const ofTube = 'tubeId' in event && event.type !== 'exceptionRaised'
  return ofTube ? `${text}, ${tubeName(facts, event.tubeId, words)}` : text
}

function unitOf(key: string): string {
  const unit = key.slice(key.lastIndexOf('_') + 1)
  return unit === 'n' ? '' : ` ${unit}`
}
