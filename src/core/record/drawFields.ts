import { languageName } from '../basics/languageName.ts'
import { REJECT_REASONS } from '../protocol/benchEvents.ts'
import type { Recollects } from '../order/order.ts'
import { partsWith } from '../order/orderParts.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { bloodTaken } from '../protocol/bloodTaken.ts'
import { replay } from '../protocol/evolve.ts'
import { tooYoungForOwnName } from '../protocol/ownWord.ts'
import { dayMonthYear, dayOf, offsetText } from '../time/format.ts'
import { allergiesOf, ARMS } from '../order/order.ts'
import { benchFields } from './benchFields.ts'
import { newbornFields } from './cardFields.ts'
import type { DrawFacts } from './drawFacts.ts'
import { labeledTubes, labelIsRight } from './labeledTubes.ts'
import { amount, joined, personText, type Fields, type NoteWords } from './noteWords.ts'
import { setText } from './setText.ts'
import { sittingFields } from './sittingFields.ts'

/** The fields of sections that stand once. */
export function drawFields(facts: DrawFacts, log: DrawLog, words: NoteWords): Fields {
  return {
    ...headFields(facts, words),
    ...patientFields(facts, words),
    ...orderFields(facts, words),
    ...sittingFields(facts, words),
    ...beforeFields(facts, words),
    ...preparationFields(facts, words),
    ...newbornFields(facts, words),
    ...afterFields(facts, log, words),
    policyVersion: facts.opened.policy.version,
    planRevisions: joined(
      facts.planRevisions.map(
        ({ at, why }) => `${words.at(at)}: ${words.orOwn('planRevised', why)}`,
      ),
    ),
    entries: String(log.entries.length),
    lastHash: log.entries.at(-1)?.hash.slice(0, 16),
  }
}

function headFields(facts: DrawFacts, words: NoteWords): Fields {
  const { opened, closed } = facts
  return {
    drawId: opened.drawId,
    date: dayOf(facts.openedAt),
    offset: offsetText(facts.openedAt),
    site: opened.site || undefined,
    device: opened.device,
    collectors: joined(
      facts.collectors.map(({ collector, from }, i) =>
        i === 0
          ? personText(collector)
          : words.say('collector', 'later', { person: personText(collector), at: words.at(from) }),
      ),
    ),
    opened: words.at(facts.openedAt),
    closed: words.at(closed?.at),
    outcome: closed && words.word('outcome', closed.outcome),
    outcomeReason: facts.endReason && words.orOwn('endReason', facts.endReason),
  }
}

function patientFields({ opened: { patient } }: DrawFacts, { word }: NoteWords): Fields {
  return {
    patientName: patient.fullName || undefined,
    familyName: patient.familyName,
    givenNames: patient.givenNames ?? (patient.familyName && word('name', 'none')),
    birthDate: dayMonthYear(patient.birthDate) || undefined,
    recordNumber: patient.recordNumber || undefined,
    sex: patient.sex && word('sex', patient.sex),
    weight: patient.weight_kg === undefined ? undefined : `${amount(patient.weight_kg)} kg`,
    haematocrit:
      patient.haematocrit_pct === undefined ? undefined : `${amount(patient.haematocrit_pct)} %`,
  }
}

function orderFields({ opened: { order, recollects } }: DrawFacts, words: NoteWords): Fields {
  const numbers = [...new Set((order.parts ?? []).map(({ orderNumber }) => orderNumber))]
  /** With the number of its order, where several share the draw. */
  const named = (test: string): string => {
    const own = partsWith(order, test).map(({ orderNumber }) => orderNumber)
    return own.length > 0 ? `${words.testName(test)} (${own.join(' + ')})` : words.testName(test)
  }
  return {
    orderNumber: numbers.join(' + ') || order.orderNumber || undefined,
    priority: words.word('priority', order.priority),
    provider: order.provider,
    tests: joined(order.tests.map(named), ', '),
    recollects: recollects && recollectsText(recollects, words),
  }
}

/** `D7-20261125-0003, tube 2: Broken container`. */
function recollectsText({ drawId, tubeIds, reason, note }: Recollects, words: NoteWords): string {
  const code = REJECT_REASONS.find((known) => known === reason)
  const why = code ? words.word('rejected', code) : words.word('recollected', 'notDrawn')
  const because = [why, note].filter(Boolean).join(', ')
  return tubeIds.length === 0
    ? words.say('recollected', 'draw', { drawId, why: because })
    : words.say('recollected', 'tubes', { drawId, tubes: tubeIds.join(', '), why: because })
}

function beforeFields(facts: DrawFacts, words: NoteWords): Fields {
  const { word, at, say } = words
  const unsaid = tooYoungForOwnName(facts) ? 'unsaid' : 'patient'
  const withdrawn = facts.exceptions.find(({ kind }) => kind === 'consentWithdrawn')
  const consent = [
    ...(facts.consent ? [consentText(facts.consent, words)] : []),
    ...(withdrawn ? [`${word('consent', 'withdrawn')} ${at(withdrawn.at)}`] : []),
  ]
  return {
    identifiers: joined(
      facts.identifiers.map((checked) => {
        const matches = word('matches', checked.matches ? 'yes' : 'no')
        const how = word('identifiedBy', checked.how ?? unsaid)
        return `${word('identifier', checked.identifier)} ${matches} ${at(checked.at)}, ${how}`
      }),
    ),
    consent: joined(consent),
    patientLanguage: joined(
      facts.patientLanguages.map(({ language, at: chosen }) =>
        [languageName(language), at(chosen)].filter(Boolean).join(' '),
      ),
    ),
    preparation:
      facts.preparationChecked &&
      `${word('preparation', 'checked')} ${at(facts.preparationChecked)}`,
    notPrepared: joined(facts.notPrepared.map((n) => `${n.what}, ${at(n.at)}`)),
    decisions: joined(
      facts.decisions.map((d) => {
        const arm = d.arm ? `, ${word('arm', d.arm)}` : ''
        const about = d.about ? `${word('approval', d.about)}${arm}: ` : ''
        const why = d.why ? `, ${d.why}` : ''
        return `${about}${word('decision', d.decision)} ${d.by}${why}, ${at(d.at)}`
      }),
    ),
    approvals: joined(
      (facts.opened.approvals ?? []).map(
        ({ about, by, reason }) => `${word('approval', about)}: ${by}, ${reason}`,
      ),
    ),
    supplies: at(facts.supplies),
    hands: at(facts.hands),
    armsSeen: joined(
      facts.armsSeen.map(
        (seen) => `${word('arm', seen.arm)}: ${word('armFinding', seen.finding)} ${at(seen.at)}`,
      ),
    ),
    position: joined(facts.positions.map((p) => `${word('position', p.position)} ${at(p.at)}`)),
    wentToVein:
      facts.wentToVein && `${word('toVein', facts.wentToVein.why)}, ${at(facts.wentToVein.at)}`,
    needle: facts.opened.collecting
      ? say('skin', 'lancet', { place: word('collecting', facts.opened.collecting) })
      : setText(facts.opened.needleSet, words),
    attempts:
      joined(
        facts.attempts.map(
          ({ collector, count }) =>
            `${collector.name || collector.initials || collector.id} ${count}`,
        ),
      ) ?? '0',
  }
}

/** `given 09:00:20, by the patient, spoken`; of an older draw without who and how. */
function consentText(
  { given, by, form, at }: NonNullable<DrawFacts['consent']>,
  words: NoteWords,
): string {
  const what = `${words.word('consent', given ? 'given' : 'refused')} ${words.at(at)}`
  const unsaid = given && form ? (['unsaid'] as const) : []
  const who = (by ? [by] : unsaid).map((each) => words.word('consentBy', each))
  const how = form ? [words.word('consentForm', form)] : []
  return [what, ...who, ...how].join(', ')
}

function preparationFields({ answers: preparation }: DrawFacts, { word }: NoteWords): Fields {
  const yesNo = (yes: boolean | undefined): string =>
    word('yesNo', yes === undefined ? 'notAsked' : yes ? 'yes' : 'no')
  const allergies = allergiesOf(preparation.antisepticAllergy)
  const arms = ARMS.flatMap((arm) => {
    const why = preparation.restrictions[arm]
    return why ? [`${word('arm', arm)}: ${word('restriction', why)}`] : []
  })
  return {
    fasting: preparation.fasted_h === undefined ? undefined : `${amount(preparation.fasted_h)} h`,
    anticoagulant: word('anticoagulant', preparation.anticoagulant),
    latex: yesNo(preparation.latexAllergy),
    antisepticAllergy:
      joined(allergies.map((allergy) => word('antisepticAllergy', allergy))) ??
      word('yesNo', 'notAsked'),
    restrictions: joined(arms) ?? word('restriction', 'none'),
    faintedBefore: yesNo(preparation.faintedBefore),
  }
}

function afterFields(facts: DrawFacts, log: DrawLog, words: NoteWords): Fields {
  const { at, say, word } = words
  const labeled = labeledTubes(facts)
  const right = labeled.filter(({ tube }) => labelIsRight(facts, tube.id))
  const { blood } = facts.plan
  // With what was lost, set aside or thrown away: the patient gave it all the same.
  const state = replay(log.entries)
  const taken = bloodTaken(state)
  const closed = [...state.past, state.puncture].flatMap(({ arm, closedBy }) =>
    arm && closedBy ? [`${word('arm', arm)}: ${word('restriction', closedBy)}`] : [],
  )
  return {
    labelsReadBack:
      labeled.length > 0
        ? say('labels', 'some', { right: String(right.length), all: String(labeled.length) })
        : '0',
    labelsDone: at(facts.labelsDone),
    aftercare: aftercareText(facts, words),
    handsAfter: at(facts.handsAfter),
    armsClosed: joined([...new Set(closed)]),
    racked: at(facts.racked),
    ...benchFields(facts, words),
    bloodDrawn: say('blood', taken.least_mL === taken.most_mL ? 'sum' : 'least', {
      sum: amount(taken.least_mL),
    }),
    bloodApproved: joined(
      facts.bloodApproved.map((approved) => `${approved.by}: ${approved.why}, ${at(approved.at)}`),
    ),
    bloodPlanned: `${amount(blood.draw_mL)} mL`,
    bloodLimit: blood.limit_mL === undefined ? undefined : `${amount(blood.limit_mL)} mL`,
  }
}

/** `09:14:20 (Spanish)`: when, and in which language where that is known. */
function aftercareText({ aftercare, aftercareLanguage }: DrawFacts, { at }: NoteWords) {
  const told = at(aftercare)
  return told === undefined || aftercareLanguage === undefined
    ? told
    : `${told} (${languageName(aftercareLanguage)})`
}
