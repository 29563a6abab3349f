import { generateKeyPairSync, sign, type KeyObject } from 'node:crypto'
import type { DrawLog } from '../../src/core/protocol/entry.ts'
import { exportLog, type ExportFile, type Sign } from '../../src/core/log/exportFile.ts'
import { sha256 } from './sampleLog.ts'

export interface SampleKey {
  readonly publicKey: string
  readonly keyId: string
  readonly privateKey: KeyObject
}

/** A key made for one test run, by Node's own crypto and not by the app's. */
export function sampleKey(): SampleKey {
  const pair = generateKeyPairSync('ec', { namedCurve: 'P-256' })
  const publicKey = pair.publicKey.export({ format: 'der', type: 'spki' }).toString('hex')
  return { publicKey, keyId: sha256(publicKey).slice(0, 16), privateKey: pair.privateKey }
}

/** Signs with a key as a device does. */
export const signWith =
  (key: SampleKey): Sign =>
  (text) =>
    Promise.resolve(
      sign('sha256', Buffer.from(text), {
        key: key.privateKey,
        dsaEncoding: 'ieee-p1363',
      }).toString('hex'),
    )

export function sampleExport(log: DrawLog, key: SampleKey): Promise<ExportFile> {
  return exportLog(log, Date.UTC(2026, 10, 25, 9), key, signWith(key))
}
