import { useEffect, useState } from 'react'
import {
  daySupplies,
  drawsToSupply,
  needsOf,
  type ListSupplies,
} from '../../app/day/daySupplies.ts'
import type { DrawNeeds } from '../../core/day/supplies.ts'
import { calendarDate } from '../../core/time/format.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'

/** So many draws are planned between two looks at the hands of the person: one takes some milliseconds. */
const AT_ONCE_n = 3

/** What was planned, by the content of the draw; good for one stock and one day. */
interface Planned {
  readonly of: string
  readonly needs: ReadonlyMap<string, DrawNeeds | undefined>
}

/** The supplies of the list, worked out little by little; a draw is planned again only when it or the stock changed. */
export function useSupplies(): {
  readonly n: number
  readonly done: number
  readonly supplies: readonly ListSupplies[]
  readonly sittings: number
  readonly leftOver: number
} {
  const { rows, now_ms } = useApp((s) => s.day)
  const stock = useApp((s) => s.stock)
  const { site } = useServices()
  const today = calendarDate(here(now_ms))
  const of = JSON.stringify([today, stock])
  const [planned, setPlanned] = useState<Planned>({ of, needs: new Map() })
  const needs = planned.of === of ? planned.needs : new Map<string, DrawNeeds | undefined>()
  const { draws, sittings, leftOver } = drawsToSupply(rows)
  const keyed = draws.map((draw) => ({ draw, key: JSON.stringify(draw) }))
  const open = keyed.filter(({ key }) => !needs.has(key))
  const by = { site, stock, today }
  useEffect(() => {
    if (open.length === 0) return
    const timer = setTimeout(() => {
      const more = open.slice(0, AT_ONCE_n)
      const found = more.map(({ draw, key }) => [key, needsOf(draw, by)] as const)
      setPlanned({ of, needs: new Map([...needs, ...found]) })
    })
    return () => clearTimeout(timer)
  })
  const known = keyed.filter(({ key }) => needs.has(key))
  const supplies =
    open.length > 0
      ? []
      : daySupplies(
          known.map(({ draw, key }) => ({ draw, needs: needs.get(key) })),
          by,
        )
  return { n: draws.length, done: known.length, supplies, sittings, leftOver }
}
