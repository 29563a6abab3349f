import type { ScanMarks } from '../../core/scan/judgeBurst.ts'
import { useApp } from './appContext.tsx'

/** The signs that the scanner of this device is set to send. */
export function useScanMarks(): ScanMarks {
  const prefix = useApp((s) => s.settings.scanPrefix)
  const suffix = useApp((s) => s.settings.scanSuffix)
  return { prefix, suffix }
}
