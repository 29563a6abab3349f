import { fillText } from '../basics/fillText.ts'
import type { Gauge, NeedleSet } from '../order/order.ts'
import type { GaugeCase, PlanTexts } from './planTexts.ts'

/** What is known of the place and the person a needle is chosen for. */
export interface GaugeQuestion {
  readonly vein: 'medianCubital' | 'cephalic' | 'basilic' | 'hand' | 'other' | undefined
  readonly age_y: number
}

export interface GaugeAdvice {
  readonly case: GaugeCase
  readonly gauges: readonly Gauge[]
  readonly kind: NeedleSet['kind'] | 'either'
  readonly source: string
}

const ADVICE: Readonly<Record<GaugeCase, Pick<GaugeAdvice, 'gauges' | 'kind'>>> = {
  infant: { gauges: [23, 25], kind: 'winged' },
  child: { gauges: [23, 22], kind: 'winged' },
  teenager: { gauges: [22, 23, 21], kind: 'either' },
  hand: { gauges: [23, 22], kind: 'winged' },
  old: { gauges: [22, 23, 21], kind: 'either' },
  adult: { gauges: [21, 22], kind: 'either' },
}

const PRACTICE =
  'common practice, no source; 25 gauge is not recommended in general (Lippi 2006, as summarized)'

/**
 * Advice on needle size by vein and age. The gauge is the number printed on the packet: hub colours of winged sets in
 * use do not always follow ISO 6009, so nothing here reads or gives a colour.
 */
export function gaugeAdvice(question: GaugeQuestion): GaugeAdvice {
  const which = caseOf(question)
  return { case: which, ...ADVICE[which], source: PRACTICE }
}

function caseOf({ vein, age_y }: GaugeQuestion): GaugeCase {
  if (age_y < 1) return 'infant'
  if (age_y < 12) return 'child'
  if (vein === 'hand') return 'hand'
  if (age_y < 18) return 'teenager'
  return age_y >= 75 ? 'old' : 'adult'
}

function suits({ gauge, kind }: NeedleSet, advice: GaugeAdvice): boolean {
  return advice.gauges.includes(gauge) && (advice.kind === 'either' || advice.kind === kind)
}

/** A sentence when the needle in hand is outside the advice; `undefined` when it fits. */
export function gaugeRemark(
  set: NeedleSet,
  question: GaugeQuestion,
  texts: PlanTexts,
): string | undefined {
  const { case: which } = gaugeAdvice(question)
  // Before the vein is chosen it may still be one of the hand.
  const veins = question.vein ? [question.vein] : ([undefined, 'hand'] as const)
  if (veins.some((vein) => suits(set, gaugeAdvice({ ...question, vein })))) return undefined
  return fillText(texts.notices.gauge, {
    kind: texts.needleKind[set.kind],
    gauge: set.gauge,
    advice: fillText(texts.gauge[which]),
  })
}
