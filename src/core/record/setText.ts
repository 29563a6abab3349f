import type { NeedleSet } from '../order/order.ts'
import { amount, type NoteWords } from './noteWords.ts'

/** `21 G winged set, thin wall, needle 19 mm, tubing 305 mm`, and the syringe it is on. */
export function setText(set: NeedleSet, { say, word }: NoteWords): string {
  const bare = say('needle', 'set', {
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
