import { exportLog, exportPart, exportText } from '../../core/log/exportFile.ts'
import { readLog } from '../../core/log/readLog.ts'
import { openingOf } from '../../core/record/openingOf.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import type { AppDeps } from '../appDeps.ts'

type ExportDeps = Pick<AppDeps, 'clock' | 'deviceKey' | 'logStore' | 'sha256'>

/**
 * The text of a draw's signed export. A draw that was brought in leaves as the very bytes it came as, never signed by
 * this device; what was added here since stands behind them, signed as a part of its own.
 * @param device the prefix of this device
 * @throws Error when the bytes that it came as no longer fit what is stored of it
 */
export async function signedExport(
  log: DrawLog,
  device: string,
  deps: ExportDeps,
): Promise<string> {
  const { clock, deviceKey, logStore, sha256 } = deps
  const original = await logStore.original(log.drawId).catch((error: unknown) => {
    // A draw that was opened on this device came from no file; where the disk fails it must still leave whole.
    if (openingOf(log).device === device) return undefined
    throw error
  })
  const sign = (text: string): Promise<string> => deviceKey.sign(text)
  const now_ms = clock.read().wall_ms
  if (original === undefined) {
    return exportText(await exportLog(log, now_ms, await deviceKey.identity(), sign))
  }
  const read = readLog(original, sha256)
  const came = read.ok ? read.value.log.entries : []
  const last = came.at(-1)
  if (!last || log.entries[came.length - 1]?.hash !== last.hash) {
    throw new Error('What is stored of the draw does not follow from the file it came as.')
  }
  if (log.entries.length === came.length) return original
  const part = await exportPart(log, came.length, now_ms, await deviceKey.identity(), sign)
  return original + exportText(part)
}
