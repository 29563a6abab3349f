import type { KeyValue } from '../../../ports/hub.ts'
import { deviceOf } from '../../../core/hub/roster.ts'
import { createDeskActs, type DeskActs } from '../deskActs.ts'
import { createDeskJoin, type DeskJoin } from '../join/deskJoin.ts'
import type { ClinicMember, ClinicSetupDeps } from './clinicSetup.ts'
import { checkDeskValue, putDeskValue, SITE, type DeskSigner } from './deskValues.ts'
import { handPass, RENEW_BEFORE_ms, renewPasses, type RenewDeps } from './passes.ts'
import { handDeskFile } from './secondDesk.ts'

/** Which desk shows a code: the last one counts, since whoever asks is answered by whichever desk is quicker. */
export const INVITE_PLACE = `${SITE}/invite`

/** A desk without its desk file lets nobody in. */
export class NoDeskFile extends Error {
  override readonly name = 'NoDeskFile'
}

export interface DeskSide {
  readonly acts: DeskActs
  readonly join: DeskJoin
  readonly signer: DeskSigner
  /** Shows a code here and nowhere else. */
  invite(): Promise<void>
  /** Another desk may show one now. */
  heardInvite(value: KeyValue): Promise<void>
  /** The desk that ended our code. */
  readonly invitedAt: () => string | undefined
  makeDesk(device: string): Promise<void>
  /** Signs its own pass, for which it needs no hub: also one that has ended. */
  renewOwn(): Promise<void>
  /** Signs what is about to end. */
  renew(): Promise<void>
}

/** What only a desk does, on the parts that a member has running. */
export function createDeskSide(
  deps: ClinicSetupDeps,
  member: ClinicMember,
  tell: () => void,
): DeskSide {
  const { clock, crypto, keys, rights, secrets, deviceKey, verify, newId, keyName } = deps
  const { hub, book, clinic, device } = member
  let invited = 0
  let elsewhere: string | undefined

  const deskFile = async (): Promise<string> => {
    const text = await secrets.read('desk')
    if (text === undefined) throw new NoDeskFile('This desk has no desk file.')
    return text
  }
  const signer: DeskSigner = { hub, clinic, device, sign: (text) => deviceKey.sign(text) }
  const renewing = async (): Promise<RenewDeps> => ({
    ...{ ...signer, rights, passEnds_ms: deps.passEnds_ms },
    deskFile: await deskFile(),
  })
  const acts = createDeskActs({ hub, book, keys, rights, deskFile, device, newId })
  const join = createDeskJoin({
    ...{ hub, clock, crypto, acts, clinic, keyName },
    deskKey: () => keys.identity(),
  })
  join.onChange(tell)

  return {
    acts,
    join,
    signer,
    async invite() {
      await deskFile()
      elsewhere = undefined
      join.invite()
      const put = await putDeskValue(signer, INVITE_PLACE, 'open')
      if (put.kind === 'stored') invited = put.edition
    },
    async heardInvite(value) {
      const shown = join.view()
      if (!shown) return
      const said = await checkDeskValue(value, book.roster(), verify)
      if (typeof said === 'string' || said.by === device || said.edition <= invited) return
      if (shown.isOpen) elsewhere = deviceOf(book.roster(), said.by)?.name ?? said.by
      join.leaveToOthers()
      tell()
    },
    invitedAt: () => elsewhere,
    async makeDesk(id) {
      const other = deviceOf(book.roster(), id)
      if (!other || other.revoked_ms !== undefined) throw new Error(`No device: ${id}`)
      const file = await deskFile()
      // What it needs stands there before the others are told that it may use it.
      await handDeskFile({ ...signer, keys }, other, file)
      await handPass(await renewing(), other, true)
      await acts.makeDesk(id)
    },
    async renewOwn() {
      const { passEnds_ms } = deps
      const ends_ms = passEnds_ms(member.pass().jwt)
      const me = deviceOf(book.roster(), device)
      const isLong = ends_ms === undefined || ends_ms - clock.read().wall_ms > RENEW_BEFORE_ms
      if (isLong || !me?.isDesk || me.revoked_ms !== undefined) return
      const { passKey } = me
      await member.keepPass(await rights.sign(await deskFile(), { device, passKey, isDesk: true }))
    },
    async renew() {
      await renewPasses(await renewing(), book.roster(), clock.read().wall_ms)
    },
  }
}
