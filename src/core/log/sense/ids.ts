import { isPrintableId } from '../../protocol/drawId.ts'
import type { DrawLog } from '../../protocol/entry.ts'
import type { Plan } from '../../plan/plan.ts'
import { quoted } from '../../text/shownText.ts'
import { logFault, type LogFault } from '../fault.ts'
import { plansOf } from './plansOf.ts'

/** Numbers that no device of ours gives: they cannot be printed as bars, or stand for two things. */
export function idFault(log: DrawLog): LogFault | undefined {
  if (!isPrintableId(log.drawId)) return logFault('drawId', 1, { drawId: quoted(log.drawId) })
  for (const { plan, seq } of plansOf(log)) {
    const fault = tubeFault(plan, seq)
    if (fault) return fault
  }
  return undefined
}

function tubeFault({ tubes }: Plan, seq: number): LogFault | undefined {
  const seen = new Set<string>()
  for (const { id } of tubes) {
    if (!isTubeId(id)) return logFault('tubeId', seq, { id: quoted(id) })
    if (seen.has(id)) return logFault('tubeTwice', seq, { id: quoted(id) })
    seen.add(id)
  }
  return undefined
}

/** `t1`, `t2`: letters and a number, so that no name that every object has can be one. */
const isTubeId = (id: string): boolean => /^[A-Za-z]{1,8}\d{1,4}$/.test(id)
