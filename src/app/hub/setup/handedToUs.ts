import type { KeyValue } from '../../../ports/hub.ts'
import type { ClinicMember, ClinicSetupDeps } from './clinicSetup.ts'
import { checkDeskValue } from './deskValues.ts'
import { isBetterPass, passPlace } from './passes.ts'
import { deskFilePlace, openDeskFile } from './secondDesk.ts'

export type Handed = 'pass' | 'deskFile'

/**
 * Takes what a desk handed to this device: its next pass, or the desk file. Anything that no desk of this clinic signed
 * for this device is left where it is. Rejects where it cannot be kept.
 * @returns what was taken
 */
export async function takeHanded(
  value: KeyValue,
  { book, device, pass, keepPass }: ClinicMember,
  { keys, rights, secrets, verify, passEnds_ms, site }: ClinicSetupDeps,
): Promise<Handed | undefined> {
  const isPass = value.key === passPlace(device)
  if (!isPass && value.key !== deskFilePlace(device)) return undefined
  const said = await checkDeskValue(value, book.roster(), verify)
  if (typeof said === 'string') return undefined
  if (isPass) {
    if (!isBetterPass(said.body, pass().jwt, passEnds_ms)) return undefined
    await keepPass(said.body)
    return 'pass'
  }
  const file = await openDeskFile(said.body, keys)
  if (file === undefined || rights.clinicOf(file) !== site.clinic) return undefined
  if ((await secrets.read('desk')) === file) return undefined
  await secrets.update('desk', () => file)
  return 'deskFile'
}
