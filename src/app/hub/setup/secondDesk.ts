import type { TrustedDevice } from '../../../core/hub/roster.ts'
import { isWrappedKeys } from '../../../core/hub/wrappedKeys.ts'
import { parseJson } from '../../../core/text/parseJson.ts'
import type { ClinicKeys } from '../../../ports/clinicKeys.ts'
import { putDeskValue, SITE, type DeskSigner } from './deskValues.ts'

/** Where the desk file of a second desk stands, sealed for that device alone. */
export const deskFilePlace = (device: string): string => `${SITE}/desk/${device}`

/** Hands the desk file to another device. @throws HubError as the hub does */
export async function handDeskFile(
  signer: DeskSigner & { readonly keys: Pick<ClinicKeys, 'wrapText'> },
  { id, sealingKey }: Pick<TrustedDevice, 'id' | 'sealingKey'>,
  deskFile: string,
): Promise<void> {
  const wrapped = await signer.keys.wrapText(sealingKey, deskFile)
  await putDeskValue(signer, deskFilePlace(id), JSON.stringify(wrapped))
}

/** The desk file in what a desk handed to this device; `undefined` where it does not open. */
export async function openDeskFile(
  body: string,
  keys: Pick<ClinicKeys, 'unwrapText'>,
): Promise<string | undefined> {
  const json = parseJson(body, 2)
  if (!json.ok || !isWrappedKeys(json.value)) return undefined
  return keys.unwrapText(json.value).catch(() => undefined)
}
