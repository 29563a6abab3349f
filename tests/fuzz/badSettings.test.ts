import { describe, expect, it } from 'vitest'
import { readPolicy, policyJson } from '../../src/app/site/readPolicy.ts'
import { readSettings } from '../../src/app/site/readSettings.ts'
import { DEFAULT_SETTINGS, type Settings } from '../../src/app/site/settings.ts'
import type { Policy } from '../../src/core/policy/policy.ts'
import { attack, PATIENCE } from '../support/fuzz/attack.ts'
import { hollow, readable, readableLines, when, whole, within } from '../support/fuzz/nonsense.ts'
import { handlers, site } from '../support/fuzz/readers.ts'

const shipped = site.defaultPolicy
const names = Object.keys(shipped.limits).sort()

async function readLimits(bytes: Uint8Array): Promise<Policy | undefined> {
  const read = await handlers.limits({ bytes, shipped, texts: site.texts })
  return read?.reading.ok === true ? read.reading.value : undefined
}

/** What no room keeps, and what contradicts itself; lengths by the unit that ends the name. */
function limitNonsense({ version, limits }: Policy): string[] {
  const seconds = (key: keyof Policy['limits']): number =>
    limits[key].value * (key.endsWith('_h') ? 3600 : key.endsWith('_min') ? 60 : 1)
  const order = (low: keyof Policy['limits'], high: keyof Policy['limits']): string[] =>
    when(!(seconds(low) <= seconds(high)), `${low} over ${high}`)
  return [
    ...hollow(limits),
    ...readable('version', version),
    ...when(Object.keys(limits).sort().join() !== names.join(), 'other limits than there are'),
    ...Object.entries(limits).flatMap(([key, { value, source }]) => [
      ...within(key, value, 0, 86_400),
      ...(key.endsWith('_n') ? whole(key, value) : []),
      ...readableLines(`source of ${key}`, source),
      ...when(source === '', `no source of ${key}`),
    ]),
    ...order('bandFirstCue_s', 'bandSecondCue_s'),
    ...order('bandSecondCue_s', 'bandLastCue_s'),
    ...order('bandLastCue_s', 'bandLimit_s'),
    ...order('mixStart_s', 'mixLate_s'),
    ...order('pressure_s', 'pressureAnticoagulant_s'),
    ...order('pressure_s', 'pressureArtery_s'),
    ...order('clotMost_min', 'separate_min'),
    // The alarm must sound while the tourniquet may still come off in time.
    ...when(limits.bandLimit_s.value > 120, 'a tourniquet for more than two minutes'),
    ...when(limits.bandAlarmRepeat_s.value <= 0, 'an alarm without a pause'),
    ...when(limits.attemptsPerPerson_n.value > 2, 'more than two attempts'),
  ]
}

const LIMITS = [
  policyJson(shipped),
  JSON.stringify({ version: '2', limits: { pressure_s: 180, bandLimit_s: { value: 55.5, source: 'our rule' }, bandLastCue_s: 50 } }), // prettier-ignore
].map((text) => JSON.stringify(JSON.parse(text))) as [string, string]

const OWN: Settings = {
  ...DEFAULT_SETTINGS,
  siteName: 'Example Clinic',
  collectorName: 'Robin Example',
  collectorInitials: 'RE',
  devicePrefix: 'QX',
  scanPrefix: '~',
  scanSuffix: '#',
  retention_days: 90,
}

function settingsNonsense(s: Settings): string[] {
  return [
    ...hollow(s),
    ...when(Object.keys(s).sort().join() !== Object.keys(DEFAULT_SETTINGS).sort().join(), 'keys'),
    ...when(typeof s.voiceOn !== 'boolean' || typeof s.silent !== 'boolean', 'a switch'),
    ...within('volume', s.volume, 0, 1),
    ...within('lock after', s.lockAfter_min, 1, 120),
    ...within('retention', s.retention_days, 0, 40_000),
    ...when(s.devicePrefix !== '' && !/^[A-Z0-9]{2,4}$/.test(s.devicePrefix), 'device prefix'),
    ...when(!/^[\w.-]*$/.test(s.speechModel), `model ${s.speechModel}`),
    ...when(!/^[\w.-]+$/.test(s.promptVoice), `voice ${s.promptVoice}`),
    ...when(s.scanPrefix.length > 8 || s.scanSuffix.length > 8, 'a long scan mark'),
    ...readable('site', s.siteName.trim(), false),
    ...readable('collector', s.collectorName.trim(), false),
    ...readable('initials', s.collectorInitials.trim(), false),
    ...when(s.paper !== 'A4' && s.paper !== 'letter', 'paper'),
  ]
}

describe('limits and settings that were tampered with', PATIENCE, () => {
  it('limits', async () => {
    const seeds = { format: 'json', texts: LIMITS } as const
    const result = await attack({ seeds, read: readLimits, nonsense: limitNonsense })
    expect(result.broken).toEqual([])
    expect(result.accepted).toBeGreaterThan(0)
    expect(result.refused).toBeGreaterThan(0)
  })

  it('settings: what cannot be read is as at first', async () => {
    const seeds = { format: 'json', texts: [JSON.stringify(OWN)] } as const
    const read = (bytes: Uint8Array): Settings | undefined => {
      const { value, faults } = readSettings(new TextDecoder().decode(bytes), site.texts.site)
      return faults.length > 0 && JSON.stringify(value) === JSON.stringify(DEFAULT_SETTINGS)
        ? undefined
        : value
    }
    const result = await attack({ seeds, read, nonsense: settingsNonsense })
    expect(result.broken).toEqual([])
    expect(result.accepted).toBeGreaterThan(0)
    expect(result.refused).toBeGreaterThan(0)
  })

  it('limits that were kept are read like those of a file', () => {
    expect(readPolicy(shipped, LIMITS[0], site.texts)).toMatchObject({ ok: true })
  })
})
