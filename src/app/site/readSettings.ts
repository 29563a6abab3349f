import { fillText } from '../../core/basics/fillText.ts'
import { isLanguage } from '../../core/basics/language.ts'
import { isRecord } from '../../core/basics/isRecord.ts'
import { isDevicePrefix } from '../../core/protocol/drawId.ts'
import type { Salvaged } from '../../core/basics/result.ts'
import { parseJson } from '../../core/text/parseJson.ts'
import { readText } from '../../core/text/readText.ts'
import { isScanMark } from '../../core/scan/judgeBurst.ts'
import { isPedalKey } from '../../core/scan/pedalKey.ts'
import { isRehearsals } from './rehearsals.ts'
import { DEFAULT_SETTINGS, SETTING_RANGES, type Settings } from './settings.ts'
import { choiceOf, isModelFile } from './speechModels.ts'
import type { SiteTexts } from './siteTexts.ts'

/** Characters of an output's id or name. */
const LONGEST_OUTPUT = 300

/** The settings as they were kept on this device; what does not read is as at first, and a person is told. */
export function readSettings(json: string | undefined, texts: SiteTexts): Salvaged<Settings> {
  if (json === undefined) return { value: DEFAULT_SETTINGS, faults: [] }
  const kept = withModelChoice(parsed(json))
  const faults = [fillText(texts.kept.settings)]
  if (!kept) return { value: DEFAULT_SETTINGS, faults }
  // A setting that is missing was kept by an earlier version; that is no fault.
  const known = Object.keys(DEFAULT_SETTINGS).filter((key) => kept[key] !== undefined)
  const good = known.filter((key) => fits(key as keyof Settings, kept[key]))
  return {
    value: { ...DEFAULT_SETTINGS, ...Object.fromEntries(good.map((key) => [key, kept[key]])) },
    faults: good.length < known.length ? faults : [],
  }
}

function parsed(json: string): Readonly<Record<string, unknown>> | undefined {
  const read = parseJson(json)
  return read.ok && isRecord(read.value) ? read.value : undefined
}

/** The model as it was kept before there was a choice; a choice made since then goes before it. */
function withModelChoice(
  kept: Readonly<Record<string, unknown>> | undefined,
): Readonly<Record<string, unknown>> | undefined {
  if (kept?.['modelFile'] === undefined) return kept
  return { speechModel: choiceOf(kept['modelFile']), ...kept }
}

function fits(key: keyof Settings, value: unknown): boolean {
  if (typeof value !== typeof DEFAULT_SETTINGS[key]) return false
  if (key in SETTING_RANGES) {
    const [least, most] = SETTING_RANGES[key as keyof typeof SETTING_RANGES]
    const isWhole = key !== 'rotorPlaces' || Number.isInteger(value)
    return isWhole && Number(value) >= least && Number(value) <= most
  }
  if (key === 'language') return isLanguage(value)
  if (key === 'devicePrefix') return value === '' || isDevicePrefix(String(value))
  if (key === 'scanPrefix' || key === 'scanSuffix') return isScanMark(String(value))
  if (key === 'heldKey') return value === '' || isPedalKey(String(value))
  if (key === 'rehearsed') return isRehearsals(String(value))
  if (key === 'rotorAngle') return value === 'swing' || value === 'fixed'
  if (key === 'labelsBy') return value === 'app' || value === 'laboratory'
  if (key === 'paper') return value === 'A4' || value === 'letter'
  if (key === 'speechModel') return value === '' || isModelFile(String(value))
  if (key === 'promptVoice') return /^[\w.-]{1,100}$/.test(String(value))
  if (typeof value !== 'string') return true
  // As a browser gives them, which is no business of ours.
  if (key === 'earId' || key === 'earName') return value.length <= LONGEST_OUTPUT
  const read = readText(value, 'name')
  return read.ok && read.value === value.trim()
}
