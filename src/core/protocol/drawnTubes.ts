import type { DrawnTube } from '../plan/coverageAfter.ts'
import { defined } from '../basics/defined.ts'
import type { DrawState } from './state.ts'

/** What is really in the rack: every tube that came off the holder, as full as it was said to be. */
export function drawnTubes(s: DrawState): readonly DrawnTube[] {
  return s.tubes.flatMap(({ id, off, fill, estimate_mL }) =>
    off && fill ? [defined({ id, fill, estimate_mL })] : [],
  )
}
