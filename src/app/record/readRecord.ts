import { fillText } from '../../core/basics/fillText.ts'
import { faulty, ok, type Result } from '../../core/basics/result.ts'
import type { CheckedLog } from '../../core/log/readStored.ts'
import type { AppParts } from '../appDeps.ts'

/**
 * Reads the log of a draw, also of one that another device writes; a failing store and a draw that is not there are
 * told apart.
 */
export async function readRecord(
  {
    guarded,
    logs,
    clinic,
    set,
    site,
  }: Pick<AppParts, 'guarded' | 'logs' | 'clinic' | 'set' | 'site'>,
  drawId: string,
): Promise<Result<CheckedLog>> {
  const { told } = site.texts.screens
  const far = clinic.load(drawId)
  if (far) return ok(far)
  const read = await guarded(told.drawUnread, () => logs.load(drawId))
  if (!read.ok) return read
  if (read.value) return ok(read.value)
  const missing = fillText(told.drawMissing, { drawId })
  set({ trouble: missing })
  return faulty([missing])
}
