import { fillText } from '../../core/basics/fillText.ts'
import type { DayState, ListedItem } from '../../core/day/dayState.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import { isClosed } from '../../core/protocol/isClosed.ts'
import { openingOf } from '../../core/record/openingOf.ts'
import type { DayTexts } from '../site/dayTexts.ts'

interface ChairNewsDeps {
  readonly texts: DayTexts
  /** In words on the screen alone: nothing sounds over a needle. */
  readonly tell: (text: string) => void
}

/**
 * What happens on the list to the orders of the draw that runs: cancelled, refused or changed, on another page or for
 * a colleague. Each is told once; what was known when the draw was opened is no news.
 */
export function createChairNews({ texts, tell }: ChairNewsDeps) {
  const told = new Set<string>()

  function newsOf({ order, standing, since, by, why, changed }: ListedItem, opened_ms: number) {
    const number = order.order.orderNumber || order.id
    const isEnded = standing === 'cancelled' || standing === 'refused'
    if (isEnded) {
      const text =
        standing === 'cancelled' ? texts.told.cancelledInChair : texts.told.refusedInChair
      const filled = fillText(text, { number, by: by ?? '', why: why ?? '' })
      return { key: `${order.id} ${standing} ${since.at_ms}`, text: filled }
    }
    if (!changed || changed.at_ms <= opened_ms) return undefined
    return {
      key: `${order.id} changed ${changed.at_ms}`,
      text: fillText(texts.told.changedInChair, { number }),
    }
  }

  return {
    /** @param log of the draw on the screen, where it runs here */
    look(log: DrawLog | undefined, { items }: DayState): void {
      const [first] = log?.entries ?? []
      if (!log || !first || isClosed(log)) return
      const news = (openingOf(log).listed ?? [])
        .flatMap((id) => items.get(id) ?? [])
        .flatMap((item) => newsOf(item, first.at.at_ms) ?? [])
        .filter(({ key }) => !told.has(`${log.drawId} ${key}`))
      if (news.length === 0) return
      for (const { key } of news) told.add(`${log.drawId} ${key}`)
      tell(news.map(({ text }) => text).join(' '))
    },
  }
}
