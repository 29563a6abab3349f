import type { NeedleSet } from '../order/order.ts'
import { amount, type NoteWords } from './noteWords.ts'

/**
 * `21 G winged set, thin wall, needle 19 mm, tubing 305 mm`, and the syringe it is on. Of one that was named by kind
 * and gauge alone the lengths are said to be assumed.
 */
export function setText(set: NeedleSet, { say, word }: NoteWords, isNamed = false): string {
  const bare = say('needle', isNamed ? 'named' : 'set', {
    gauge: String(set.gauge),
    kind: word('needleKind', set.kind),
    wall: word('wall', set.wall ?? 'notRecorded'),
    needle_mm: amount(set.needle_mm),
    tubing_mm: amount(set.tubing_mm),
  })
  const { syringe_mL } = set
  return syringe_mL === undefined
    ? bare
    : say('needle', 'syringe', { set: bare, syringe_mL: amount(syringe_mL) })
}
