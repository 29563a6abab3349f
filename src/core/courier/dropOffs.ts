import { defined } from '../basics/defined.ts'
import type { Stamp } from '../time/stamp.ts'
import type { PackSpecimen } from './packSpecimen.ts'

/** What an act of the day tells of tubes that somebody brought. */
export interface DropOffAct {
  readonly id: string
  readonly act: { readonly type: string }
  readonly specimens: readonly { readonly drawId: string; readonly tubeIds: readonly string[] }[]
}

/** Specimens that one person brought together. */
export interface DropOff {
  /** The act by which it stands in the day's log, where the day knows it. */
  readonly act?: string
  /** Where, and to whom. */
  readonly to: string
  readonly at: Stamp
  /** By their numbers. */
  readonly specimens: readonly PackSpecimen[]
}

/** What was dropped off, the latest first, from the records of the tubes; which act it was, from the day. */
export function dropOffs(
  specimens: readonly PackSpecimen[],
  acts: readonly DropOffAct[],
): readonly DropOff[] {
  const actOf = new Map<string, string>()
  for (const { id, act, specimens: acted } of acts) {
    if (act.type !== 'droppedOff') continue
    for (const { drawId, tubeIds } of acted) {
      // Of what was brought again after it was taken back, the last act counts.
      for (const tubeId of tubeIds) actOf.set(`${drawId} ${tubeId}`, id)
    }
  }
  const found = new Map<string, DropOff & { readonly specimens: PackSpecimen[] }>()
  for (const specimen of specimens) {
    const { drawId, tubeId, way } = specimen
    if (!way.dropped) continue
    const { to, at } = way.dropped
    const act = actOf.get(`${drawId} ${tubeId}`)
    const key = act ?? `${drawId} ${at.at_ms}`
    const known = found.get(key) ?? defined({ act, to, at, specimens: [] as PackSpecimen[] })
    known.specimens.push(specimen)
    found.set(key, known)
  }
  return [...found.values()]
    .map((each) => ({
      ...each,
      specimens: [...each.specimens].sort((a, b) => (a.number < b.number ? -1 : 1)),
    }))
    .sort((a, b) => b.at.at_ms - a.at.at_ms)
}
