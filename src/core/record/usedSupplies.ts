import { LABEL_CODE, setCode } from '../catalogue/otherSupplies.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { replay } from '../protocol/evolve.ts'
import * as draw from '../protocol/facts.ts'

/**
 * The codes, in a stock, of the needle sets and labels that a draw used: a set for each needle that went in, a label
 * for each specimen that bears one of ours. A set that was opened and not used is seen by nobody here.
 * @throws RangeError when the log does not begin with the opening of a draw
 */
export function usedSupplies(log: DrawLog): readonly string[] {
  const s = replay(log.entries)
  let set = s.opened.needleSet
  const sets = draw.allPunctures(s).flatMap(({ needleSet, needleIn, isLancet }) => {
    set = needleSet ?? set
    return needleIn && !isLancet ? [setCode(set.kind, set.gauge)] : []
  })
  const isOurs = s.opened.labelsBy !== 'laboratory'
  return [...sets, ...(isOurs ? draw.specimens(s).map(() => LABEL_CODE) : [])]
}
