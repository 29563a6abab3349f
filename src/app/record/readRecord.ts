import { faulty, ok, type Result } from '../../core/basics/result.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import type { AppParts } from '../appDeps.ts'

/** Reads the log of a draw; a failing store and a draw that is not there are told apart. */
export async function readRecord(
  { guarded, logs, set }: Pick<AppParts, 'guarded' | 'logs' | 'set'>,
  drawId: string,
): Promise<Result<DrawLog>> {
  const read = await guarded('The draw cannot be read.', () => logs.load(drawId))
  if (!read.ok) return read
  if (read.value) return ok(read.value)
  const missing = `Draw ${drawId} is not stored on this device.`
  set({ trouble: missing })
  return faulty([missing])
}
