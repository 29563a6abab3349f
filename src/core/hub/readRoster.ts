import { isRecord } from '../basics/isRecord.ts'
import { faulty, ok, type Result } from '../basics/result.ts'
import { parseJson } from '../text/parseJson.ts'
import { readText } from '../text/readText.ts'
import { isHubName } from './hubNames.ts'
import type { SignedRoster, TrustedDevice } from './roster.ts'
import { isHex, isPublicKey, isWrappedKeys } from './wrappedKeys.ts'

/** Why a text is no roster. */
export const ROSTER_FAULTS = [
  'notJson',
  'otherFormat',
  'newer',
  'shape',
  'device',
  'twice',
  'noDesk',
  'keys',
] as const
export type RosterFault = (typeof ROSTER_FAULTS)[number]

/** As many as a clinic may ever have had; above the 20 chairs of a large one many times. */
const DEVICES_MAX = 500
const DEVICE_NAME_MAX = 40
const TIME_MAX_ms = 8.64e15

/** Reads a roster from outside, every field of it; what is unknown is refused. The signature is left to others. */
export function readRoster(text: string): Result<SignedRoster, RosterFault> {
  const json = parseJson(text, 6)
  if (!json.ok) return faulty(['notJson'])
  const fault = signedFault(json.value)
  return fault ? faulty([fault]) : ok(json.value as SignedRoster)
}

/** Why a value is no signed roster, or `undefined`. */
function signedFault(value: unknown): RosterFault | undefined {
  if (!hasOnly(value, ['roster', 'keys', 'by', 'signature'])) return 'shape'
  const { roster, keys, by, signature } = value
  if (!isRecord(roster) || roster.format !== 'stillhand-roster') return 'otherFormat'
  if (roster.version !== 1) return 'newer'
  if (!hasOnly(roster, ['format', 'version', 'clinic', 'edition', 'key', 'devices'])) return 'shape'
  const { clinic, edition, key, devices } = roster
  const isWhole =
    isName(clinic) &&
    isCount(edition) &&
    isHex(key, 16, 64) &&
    isName(by) &&
    isHex(signature, 2, 400)
  if (!isWhole || !Array.isArray(devices) || devices.length > DEVICES_MAX) return 'shape'
  if (!devices.every(isDevice)) return 'device'
  if (isTwice(devices)) return 'twice'
  if (!devices.some((device) => device.isDesk && device.revoked_ms === undefined)) return 'noDesk'
  return hasKeysForEach(keys, devices) ? undefined : 'keys'
}

function isDevice(value: unknown): value is TrustedDevice {
  if (!isRecord(value)) return false
  const { id, name, signingKey, sealingKey, passKey, since_ms, isDesk } = value
  const isRevoked = Object.hasOwn(value, 'revoked_ms')
  const fields = [...DEVICE_FIELDS, ...(isRevoked ? ['revoked_ms'] : [])]
  return (
    hasOnly(value, fields) &&
    isName(id) &&
    isDeviceName(name) &&
    isPublicKey(signingKey) &&
    isPublicKey(sealingKey) &&
    isPassKey(passKey) &&
    isTime(since_ms) &&
    typeof isDesk === 'boolean' &&
    (!isRevoked || isTime(value.revoked_ms))
  )
}

const DEVICE_FIELDS = ['id', 'name', 'signingKey', 'sealingKey', 'passKey', 'since_ms', 'isDesk']

/** What people call a device: a name as a person can read it, in the one form in which it is kept. */
export function isDeviceName(value: unknown): value is string {
  if (typeof value !== 'string' || value === '') return false
  const read = readText(value, 'name', DEVICE_NAME_MAX)
  return read.ok && read.value === value
}

export const isPassKey = (value: unknown): value is string =>
  typeof value === 'string' && /^[A-Z0-9]{20,80}$/.test(value)

/** Nothing stands for two devices; a name may come again once its first bearer was cut off. */
function isTwice(devices: readonly TrustedDevice[]): boolean {
  const inUse = devices.filter((device) => device.revoked_ms === undefined)
  const all = [
    devices.map(({ id }) => id),
    devices.map(({ passKey }) => passKey),
    inUse.map(({ signingKey }) => signingKey),
    inUse.map(({ sealingKey }) => sealingKey),
    inUse.map(({ name }) => sameName(name)),
  ]
  return all.some((values) => new Set(values).size !== values.length)
}

/** Names that a person would take for the same are the same. */
export const sameName = (name: string): string => name.normalize('NFKC').toLowerCase()

function hasKeysForEach(keys: unknown, devices: readonly TrustedDevice[]): boolean {
  const ids = devices.filter(({ revoked_ms }) => revoked_ms === undefined).map(({ id }) => id)
  return hasOnly(keys, ids) && Object.values(keys).every(isWrappedKeys)
}

/** A JSON object with exactly these fields. */
function hasOnly(
  value: unknown,
  fields: readonly string[],
): value is Readonly<Record<string, unknown>> {
  if (!isRecord(value)) return false
  const own = Object.keys(value)
  return own.length === fields.length && fields.every((field) => Object.hasOwn(value, field))
}

const isName = (value: unknown): value is string => typeof value === 'string' && isHubName(value)
const isCount = (value: unknown): boolean => Number.isSafeInteger(value) && Number(value) > 0
const isTime = (value: unknown): boolean =>
  Number.isSafeInteger(value) && Number(value) >= 0 && Number(value) <= TIME_MAX_ms
