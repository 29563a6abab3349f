import type { MomentTime, NotedMoment } from '../../core/order/sitting.ts'
import { NOTED_MOMENTS } from '../../core/order/sitting.ts'
import { sittingsOf } from '../../core/series/sittings.ts'
import { zonedTime_ms, type Zone } from '../../core/time/zone.ts'
import type { Catalogue } from '../../core/catalogue/catalogue.ts'
import type { OrderDraft } from './orderDraft.ts'

/** What the first draw of an order is counted from, as far as somebody can tell it before: it is asked on the form. */
export function askedMoments(
  tests: readonly string[],
  catalogue: Pick<Catalogue, 'series'>,
): readonly NotedMoment[] {
  const [first] = sittingsOf(tests, catalogue)
  return NOTED_MOMENTS.filter((moment) => first.parts.some(({ from }) => from === moment))
}

/** Those of them that were told, ms since 1970 UTC. @param zone of the local times */
export function draftMoments(
  { tests, moments }: Pick<OrderDraft, 'tests' | 'moments'>,
  catalogue: Pick<Catalogue, 'series'>,
  zone: Zone,
): readonly MomentTime[] {
  return askedMoments(tests, catalogue).flatMap((moment): readonly MomentTime[] => {
    const at_ms = zonedTime_ms(moments[moment]?.trim() ?? '', zone)
    return at_ms === undefined ? [] : [{ moment, at_ms }]
  })
}
