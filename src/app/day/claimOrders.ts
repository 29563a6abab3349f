import { fillText } from '../../core/basics/fillText.ts'
import type { DayTexts } from '../site/dayTexts.ts'
import type { AppParts } from '../appDeps.ts'
import type { DayBook } from './dayBook.ts'

/** Nothing more is drawn for these until they are taken up again. */
const ENDED: readonly string[] = ['refused', 'cancelled', 'erased']

/**
 * One order, one draw: looks at what other pages did and claims the orders for a draw that is about to open.
 * @returns why it must not be opened, in words; `undefined`: it may
 */
export async function claimOrders(
  { logStore, clock, clinic, get, refreshDraws, site }: AppParts,
  book: DayBook,
  orderIds: readonly string[],
  texts: DayTexts,
): Promise<string | undefined> {
  const { wall_ms } = clock.read()
  for (const id of orderIds.toSorted()) {
    // Where nothing can be written there is no other page's draw to be found either.
    const isOurs = await logStore.claim(`order ${id}`, wall_ms).catch(() => true)
    if (!isOurs) return texts.told.elsewhere
  }
  for (const id of orderIds.toSorted()) {
    // Alone nobody else can be asked; the list tells later where two draws were made for one order.
    const claimed = await clinic.claim(`order.${id}`)
    if (claimed.kind === 'taken') {
      return fillText(site.texts.clinic.claimed, { device: claimed.by })
    }
  }
  await book.read().catch(() => false)
  const { items } = book.state()
  const standings = orderIds.map((id) => items.get(id)?.standing ?? 'waiting')
  if (standings.some((standing) => ENDED.includes(standing))) return texts.refusals.ended
  await refreshDraws()
  const open = [...get().draws, ...get().others].filter(({ closed }) => !closed)
  const isOpen = open.some(({ listed }) => listed?.some((id) => orderIds.includes(id)))
  return isOpen ? texts.told.inChair : undefined
}
