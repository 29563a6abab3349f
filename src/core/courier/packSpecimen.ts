import type { BenchSpecimen } from '../bench/benchSpecimens.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { limit } from '../policy/policy.ts'
import { isClosed } from '../protocol/isClosed.ts'
import { leftAt, NOT_GONE_FAR } from '../protocol/specimenWay.ts'
import { factsOf } from '../record/factsOf.ts'
import { labeledTubes, labelNumberOf } from '../record/labeledTubes.ts'
import { saysWrongPerson } from '../record/saysWrongPerson.ts'

/** One tube of one draw as packing and manifest need it; one of practice never travels with others. */
export type PackSpecimen = Pick<
  BenchSpecimen,
  | 'drawId'
  | 'tubeId'
  | 'number'
  | 'patient'
  | 'invented'
  | 'order'
  | 'tube'
  | 'collected'
  | 'off'
  | 'collector'
  | 'separate_min'
  | 'way'
  | 'isOfAnother'
>

/** The specimens of a closed draw, gone ones too; none of an open one, which may still lose a tube. */
export function packSpecimens(log: DrawLog): readonly PackSpecimen[] {
  if (!isClosed(log)) return []
  const facts = factsOf(log)
  const { patient, order, invented, policy } = facts.opened
  const separate_min = limit(policy, 'separate_min')
  const isOfAnother = saysWrongPerson(facts.addenda)
  return labeledTubes(facts).map(({ tube, pulled, off, on, collector }) => ({
    drawId: log.drawId,
    tubeId: tube.id,
    number: labelNumberOf(facts, tube.id),
    ...{ patient, invented, order, tube, collector, separate_min, isOfAnother },
    off: off ?? on,
    collected: pulled ?? off ?? on,
    way: facts.ways.get(tube.id) ?? NOT_GONE_FAR,
  }))
}

/** It is still where it was drawn, and may go. */
export const isHere = ({ way, isOfAnother }: PackSpecimen): boolean =>
  leftAt(way) === undefined && !isOfAnother

/** It is still where it was drawn, and goes with no courier: it is of another person than its label says. */
export const isHeldBack = ({ way, isOfAnother }: PackSpecimen): boolean =>
  leftAt(way) === undefined && isOfAnother

/** What tells a tube from every other one of this device. */
export const specimenKey = ({ drawId, tubeId }: Pick<PackSpecimen, 'drawId' | 'tubeId'>): string =>
  `${drawId} ${tubeId}`
