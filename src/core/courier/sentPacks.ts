import { defined } from '../basics/defined.ts'
import { specimenNumber } from '../protocol/specimenNumber.ts'
import type { Stamp } from '../time/stamp.ts'
import type { PackSpecimen } from './packSpecimen.ts'

/** What an act of the day tells of a pack beside the tubes in it. */
export interface PackAct {
  readonly id: string
  readonly act: { readonly type: string; readonly pack?: string }
  readonly missing?: { readonly numbers: readonly string[]; readonly by: string }
  readonly takenBack?: true
  /** What went along by the day's log, also of draws whose record is no longer here. */
  readonly specimens?: readonly { readonly drawId: string; readonly tubeIds: readonly string[] }[]
}

/** Specimens that left together. */
export interface SentPack {
  /** As it is called on its manifest; empty where nobody named it. */
  readonly pack: string
  /** The act by which it left, where the day knows it. */
  readonly act?: string
  readonly laboratory: string
  readonly courier: string
  readonly sent: Stamp
  readonly specimens: readonly PackSpecimen[]
  readonly missing: readonly string[]
  readonly missingSaidBy: string
  /** Numbers of specimens that went along and of which there is no record here: erased, or not to be read. */
  readonly unknown: readonly string[]
}

/** What a courier took, the latest first, from the records of the tubes; what was missing, from the day. */
export function sentPacks(
  specimens: readonly PackSpecimen[],
  acts: readonly PackAct[],
): readonly SentPack[] {
  const known = new Set(specimens.map(({ drawId }) => drawId))
  const packs = new Map<string, SentPack & { readonly specimens: PackSpecimen[] }>()
  for (const specimen of specimens) {
    const { sent } = specimen.way
    if (!sent) continue
    const { pack = '', laboratory = '', courier = '', at } = sent
    const key = pack || `${specimen.drawId} ${at.at_ms}`
    const act = acts.findLast((each) => each.act.type === 'courierTook' && each.act.pack === pack)
    const found = packs.get(key) ?? {
      ...{ pack, laboratory, courier, sent: at, specimens: [] },
      ...defined({ act: pack === '' ? undefined : act?.id }),
      missing: (pack === '' ? undefined : act?.missing?.numbers) ?? [],
      missingSaidBy: (pack === '' ? undefined : act?.missing?.by) ?? '',
      unknown: pack === '' ? [] : unknownOf(act, known),
    }
    found.specimens.push(specimen)
    packs.set(key, found)
  }
  return [...packs.values()].sort((a, b) => b.sent.at_ms - a.sent.at_ms)
}

/** By the numbers of their labels, as this app gives them: the record that knew of another one is gone. */
const unknownOf = (act: PackAct | undefined, known: ReadonlySet<string>): readonly string[] =>
  (act?.takenBack ? [] : (act?.specimens ?? []))
    .filter(({ drawId }) => !known.has(drawId))
    .flatMap(({ drawId, tubeIds }) => tubeIds.map((tubeId) => specimenNumber(drawId, tubeId)))
