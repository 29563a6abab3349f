import { fillText } from '../../core/basics/fillText.ts'
import type { ActDone } from '../../core/day/dayEvents.ts'
import type { AppParts } from '../appDeps.ts'
import type { ActSeen, TubesOfDraw } from '../view/benchViewTypes.ts'

/**
 * Each act once: tubes for which no other device of the clinic has just done the same. Who has done it is told; alone
 * nobody else can be asked, and the act is done.
 * @param actsOf what was done to the tubes of a draw so far
 */
export async function claimActs(
  { clinic, set, site }: Pick<AppParts, 'clinic' | 'set' | 'site'>,
  { type }: ActDone,
  specimens: readonly TubesOfDraw[],
  actsOf: (drawId: string) => readonly ActSeen[],
): Promise<readonly TubesOfDraw[]> {
  if (!clinic.view()) return specimens
  const taken: string[] = []
  let by = ''
  const free = specimens.map(async ({ drawId, tubeIds }) => {
    const same = actsOf(drawId).filter((each) => each.type === type)
    const asked = tubeIds.map(async (tubeId) => {
      const done = same.filter(({ specimens: of }) =>
        of.some((each) => each.tubeIds.includes(tubeId)),
      )
      const claim = await clinic.claim(`act.${drawId}.${tubeId}.${type}.${done.length + 1}`)
      if (claim.kind !== 'taken') return [tubeId]
      by = claim.by
      taken.push(`${drawId} ${tubeId}`)
      return []
    })
    return { drawId, tubeIds: (await Promise.all(asked)).flat() }
  })
  const left = (await Promise.all(free)).filter(({ tubeIds }) => tubeIds.length > 0)
  if (taken.length > 0) {
    const tubes = taken.join(', ')
    set({ trouble: fillText(site.texts.clinic.claimedActs, { device: by, tubes }) })
  }
  return left
}
