import { faulty, ok, type Result } from '../basics/result.ts'
import type { DayEvent } from './dayEvents.ts'
import { ENDED, type DayState, type ListedItem } from './dayState.ts'
import type { ListedOrder } from './listedOrder.ts'

/** What can be asked of the day's list: an event that is to be, or many orders at once. */
export type DayCommand =
  | { readonly type: 'listOrders'; readonly orders: readonly ListedOrder[] }
  | Exclude<DayEvent, { readonly type: 'orderListed' | 'logContinued' }>

/** Why a command is turned down; the wording is in the language's `day` file. */
export const DAY_REFUSALS = [
  /** The order is not on the list, or not any more. */
  'notListed',
  /** An order of that id is on the list already. */
  'listedAlready',
  /** It was refused, cancelled or erased: it is taken up again first. */
  'ended',
  /** It waits: there is nothing to take up again. */
  'notEnded',
  /** Who cancels, or why, is not said. */
  'whyMissing',
  /** Nothing is named that it is about. */
  'nothing',
] as const
export type DayRefusal = (typeof DAY_REFUSALS)[number]

/** Nothing is to be taken up again: it waits, and no draw was made since. Who was called in error waits again. */
const waits = ({ standing, after }: ListedItem, draws: readonly string[] = []): boolean =>
  standing === 'waiting' && draws.every((drawId) => after.includes(drawId))

/** What a command brings about, or why it cannot be. It records what happened and turns down only what cannot be. */
export function decideDay(
  state: DayState,
  command: DayCommand,
): Result<readonly DayEvent[], DayRefusal> {
  if (command.type === 'listOrders') return listed(state, command.orders)
  if (command.type === 'benchActed') {
    return command.specimens.length === 0 ? faulty(['nothing']) : ok([command])
  }
  if (command.type === 'actTakenBack') {
    const act = state.acts.find(({ id }) => id === command.act)
    return act && !act.takenBack ? ok([command]) : faulty(['nothing'])
  }
  const ids = command.type === 'orderChanged' ? [command.order.id] : command.orderIds
  const refusal = ids.length === 0 ? 'nothing' : refusalOf(state, command, ids)
  return refusal ? faulty([refusal]) : ok([command])
}

function listed(
  state: DayState,
  orders: readonly ListedOrder[],
): Result<readonly DayEvent[], DayRefusal> {
  if (orders.length === 0) return faulty(['nothing'])
  const ids = new Set(orders.map(({ id }) => id))
  if (ids.size < orders.length || orders.some(({ id }) => state.items.has(id)))
    return faulty(['listedAlready'])
  return ok(orders.map((order) => ({ type: 'orderListed', order })))
}

type OfOrders = Exclude<DayCommand, { readonly type: 'listOrders' | 'benchActed' | 'actTakenBack' }>

function refusalOf(
  { items }: DayState,
  command: OfOrders,
  ids: readonly string[],
): DayRefusal | undefined {
  const found = ids.flatMap((id) => items.get(id) ?? [])
  if (found.length < ids.length) return 'notListed'
  const isEnded = found.some(({ standing }) => ENDED.has(standing))
  switch (command.type) {
    case 'orderCalled':
    case 'orderNotFound':
    case 'orderRefused':
      return isEnded ? 'ended' : undefined
    case 'orderPutOff':
      return isEnded ? 'ended' : missing(command.why)
    case 'orderCancelled':
      return isEnded ? 'ended' : (missing(command.by) ?? missing(command.why))
    case 'orderReopened':
      return found.every((item) => waits(item, command.after)) ? 'notEnded' : missing(command.why)
    case 'ordersTogether':
    case 'ordersApart':
    case 'ordersBothWanted':
      return ids.length < 2 ? 'nothing' : undefined
    case 'orderChanged':
    case 'recordErased':
      return undefined
  }
}

const missing = (text: string): 'whyMissing' | undefined =>
  text.trim() === '' ? 'whyMissing' : undefined
