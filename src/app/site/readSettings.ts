import { isRecord } from '../../core/basics/isRecord.ts'
import { isDevicePrefix } from '../../core/protocol/drawId.ts'
import { DEFAULT_SETTINGS, type Settings } from './settings.ts'

const TROUBLE =
  'Some settings of this device could not be read, so they are as at first: please look through Settings. No draw is lost.'

/** The settings as they were kept on this device; what does not read is as at first, with the reason in `trouble`. */
export function readSettings(json: string | undefined): {
  readonly settings: Settings
  readonly trouble?: string
} {
  if (json === undefined) return { settings: DEFAULT_SETTINGS }
  const kept = parsed(json)
  if (!kept) return { settings: DEFAULT_SETTINGS, trouble: TROUBLE }
  // A setting that is missing was kept by an earlier version; that is no fault.
  const known = Object.keys(DEFAULT_SETTINGS).filter((key) => kept[key] !== undefined)
  const good = known.filter((key) => fits(key as keyof Settings, kept[key]))
  return {
    settings: { ...DEFAULT_SETTINGS, ...Object.fromEntries(good.map((key) => [key, kept[key]])) },
    ...(good.length < known.length ? { trouble: TROUBLE } : {}),
  }
}

function parsed(json: string): Readonly<Record<string, unknown>> | undefined {
  try {
    const value: unknown = JSON.parse(json)
    return isRecord(value) ? value : undefined
  } catch {
    return undefined
  }
}

function fits(key: keyof Settings, value: unknown): boolean {
  if (typeof value !== typeof DEFAULT_SETTINGS[key]) return false
  if (key === 'volume') return Number(value) >= 0 && Number(value) <= 1
  if (key === 'devicePrefix') return value === '' || isDevicePrefix(String(value))
  if (key === 'paper') return value === 'A4' || value === 'letter'
  return true
}
