import type { Gauge, NeedleSet } from '../order/order.ts'

/** What is known of the place and the person a needle is chosen for. */
export interface GaugeQuestion {
  readonly vein: 'medianCubital' | 'cephalic' | 'basilic' | 'hand' | 'other' | undefined
  readonly age_y: number
}

export interface GaugeAdvice {
  readonly gauges: readonly Gauge[]
  readonly kind: NeedleSet['kind'] | 'either'
  readonly text: string
  readonly source: string
}

const PRACTICE =
  'common practice, no source; 25 gauge is not recommended in general (Lippi 2006, as summarized)'

/**
 * Advice on needle size by vein and age. The gauge is the number printed on the packet: hub colours of winged sets in
 * use do not always follow ISO 6009, so nothing here reads or gives a colour.
 */
export function gaugeAdvice({ vein, age_y }: GaugeQuestion): GaugeAdvice {
  const advice = (
    gauges: readonly Gauge[],
    kind: GaugeAdvice['kind'],
    text: string,
  ): GaugeAdvice => ({
    gauges,
    kind,
    text: `${text} Read the gauge printed on the packet.`,
    source: PRACTICE,
  })
  if (age_y < 1)
    return advice(
      [23, 25],
      'winged',
      'Infant: winged set, 23 gauge, or 25 where the vein is very small.',
    )
  if (age_y < 12) return advice([23, 22], 'winged', 'Child: winged set, 23 or 22 gauge.')
  if (vein === 'hand') return advice([23, 22], 'winged', 'Hand vein: winged set, 23 or 22 gauge.')
  if (age_y >= 75)
    return advice([22, 23, 21], 'either', 'Older person: 22 gauge, 23 if the vein is fragile.')
  return advice([21, 22], 'either', 'Arm vein of an adult: 21 gauge, 22 if the vein is small.')
}

/** A sentence when the needle in hand is outside the advice; `undefined` when it fits. */
export function gaugeRemark(set: NeedleSet, question: GaugeQuestion): string | undefined {
  const advice = gaugeAdvice(question)
  const kindFits = advice.kind === 'either' || advice.kind === set.kind
  if (advice.gauges.includes(set.gauge) && kindFits) return undefined
  return `The set in hand is ${set.kind}, ${set.gauge} gauge. ${advice.text}`
}
