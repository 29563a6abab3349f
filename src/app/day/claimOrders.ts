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
  { logStore, clock, get, refreshDraws }: AppParts,
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
  await book.read().catch(() => false)
  const { items } = book.state()
  const standings = orderIds.map((id) => items.get(id)?.standing ?? 'waiting')
  if (standings.some((standing) => ENDED.includes(standing))) return texts.refusals.ended
  await refreshDraws()
  const open = get().draws.filter(({ closed }) => !closed)
  const isOpen = open.some(({ listed }) => listed?.some((id) => orderIds.includes(id)))
  return isOpen ? texts.told.inChair : undefined
}
