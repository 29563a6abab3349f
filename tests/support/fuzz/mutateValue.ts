import { DAYS, UNSEEN, WORDS } from './bits.ts'
import type { Seeded } from './seeded.ts'

type Json = unknown
interface Place {
  readonly holder: Record<string, Json> | Json[]
  readonly key: string
}

const STRINGS = [DAYS[0], ...DAYS, ...WORDS] as const
const EXTREMES = [-1, -0.001, 0, 1e308, 1e12, 0.0000001, 1.5, null, true, '1', [], {}] as const

/** A JSON value with one place in it changed: another value, one of its neighbors, twice, or gone. */
export function mutateValue(value: Json, random: Seeded): Json {
  const copy: Json = structuredClone(value)
  const places: Place[] = []
  collect(copy, places)
  const place = places[random.below(places.length)]
  if (!place) return copy
  const holder = place.holder as Record<string, Json>
  const was = holder[place.key]
  const other = places[random.below(places.length)]
  switch (random.below(6)) {
    case 0:
      if (Array.isArray(place.holder)) place.holder.push(structuredClone(was))
      else delete holder[place.key]
      break
    case 1:
      if (other) holder[place.key] = structuredClone((other.holder as typeof holder)[other.key])
      break
    case 2:
      holder[place.key] = typeof was === 'string' ? `${was}${random.one(UNSEEN)}` : random.one(EXTREMES) // prettier-ignore
      break
    case 3:
      holder[place.key] = typeof was === 'string' ? random.one(STRINGS) : random.one(EXTREMES) // prettier-ignore
      break
    case 4:
      if (typeof was === 'number') holder[place.key] = -was
      else if (Array.isArray(was) && was.length > 0) was.push(structuredClone(was[0]))
      else holder[random.one(WORDS)] = structuredClone(was)
      break
    default:
      holder[place.key] = random.one(EXTREMES)
  }
  return copy
}

function collect(value: Json, places: Place[]): void {
  if (typeof value !== 'object' || value === null) return
  const holder = value as Record<string, Json>
  for (const key of Object.keys(holder)) {
    places.push({ holder, key })
    collect(holder[key], places)
  }
}
