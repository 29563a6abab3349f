import { deviceOf } from '../../../core/hub/roster.ts'
import type { KeyValue } from '../../../ports/hub.ts'
import { wakeIn } from '../../../ports/patience.ts'
import { publishFirst } from '../deskActs.ts'
import type { ClinicMember, ClinicSetupDeps } from './clinicSetup.ts'
import type { ClinicSetupView } from './clinicSetupView.ts'
import { createDeskSide, INVITE_PLACE, type DeskSide } from './deskSide.ts'
import { SITE } from './deskValues.ts'
import { takeHanded } from './handedToUs.ts'
import { createSiteSharing, isShared, type SiteSharing } from './siteSharing.ts'

/** A desk looks after the passes this often, and with each new connection. */
const RENEW_ms = 12 * 3_600_000

type MemberView = Omit<
  Extract<ClinicSetupView, { readonly kind: 'member' }>,
  'kind' | 'clinic' | 'isBusy' | 'told' | 'passEnds_ms'
>

/** What runs while this device is a member of its clinic. */
export interface RunningMember {
  readonly member: ClinicMember
  readonly desk: DeskSide
  readonly sharing: SiteSharing
  view(): MemberView
  readonly nameOf: (device: string) => string
  stop(): void
}

/** Follows what desks hand to this device, and does what a desk does by itself. Nothing here waits for a person. */
export function runMember(
  deps: ClinicSetupDeps,
  member: ClinicMember,
  tell: () => void,
): RunningMember {
  const { clock, secrets, verify, sha256 } = deps
  const { hub, book, device, clinic } = member
  const desk = createDeskSide(deps, member, tell)
  const sharing = createSiteSharing({ store: deps.settingsStore, clinic, book, verify, sha256 })
  const me = () => deviceOf(book.roster(), device)
  const wasDesk = me()?.isDesk ?? false
  let [hasDeskFile, hasNewPass, isRival] = [false, false, false]
  /** What cannot be taken yet: the roster that says who is a desk comes by the same way. */
  const waiting = new Map<string, KeyValue>()
  let turn: Promise<void> = Promise.resolve()
  let cancelRenew: (() => void) | undefined

  const look = async (): Promise<void> => {
    hasDeskFile = (await secrets.read('desk').catch(() => undefined)) !== undefined
    tell()
  }
  const takeWaiting = (): void => {
    turn = turn
      .then(async () => {
        for (const [key, value] of [...waiting]) {
          const taken = isShared(key)
            ? await sharing.take(value)
            : await takeHanded(value, member, deps)
          if (!taken) continue
          waiting.delete(key)
          if (taken === 'pass') hasNewPass = true
          await look()
        }
      })
      .catch(() => undefined)
  }
  const heard = (value: KeyValue): void => {
    if (value.key === INVITE_PLACE) return void desk.heardInvite(value)
    if (!isShared(value.key) && !value.key.endsWith(`/${device}`)) return
    waiting.set(value.key, value)
    takeWaiting()
  }
  const renew = (): void => {
    cancelRenew?.()
    cancelRenew = wakeIn(clock, RENEW_ms, renew)
    if (!me()?.isDesk || !hasDeskFile) return
    void desk.renewOwn().then(tell, () => undefined)
    if (hub.state().kind === 'connected') void desk.renew().catch(() => undefined)
  }
  /** A page that was lost while it founded the clinic goes on with it. */
  const confirmFirst = async (): Promise<void> => {
    const roster = book.signed()
    if (roster.roster.edition !== 1 || roster.by !== device) return
    const membership = { clinic: member.clinic, device, pass: member.pass(), roster }
    isRival = !(await publishFirst(hub, membership))
    tell()
  }
  const connected = (): void => {
    tell()
    if (hub.state().kind === 'connected') void confirmFirst().catch(() => undefined)
    void look().then(renew)
  }
  const stops = [
    hub.keys.watch(SITE, heard),
    hub.onState(connected),
    book.onChange(() => {
      takeWaiting()
      tell()
    }),
    () => cancelRenew?.(),
  ]
  connected()
  void sharing.load().then(tell, () => undefined)

  return {
    member,
    desk,
    sharing,
    nameOf: (id) => deviceOf(book.roster(), id)?.name ?? id,
    view: () => {
      const [invitation, invitedAt, refused] = [desk.join.view(), desk.invitedAt(), book.refused()]
      const isDesk = me()?.isDesk ?? false
      return {
        ...{ device, isDesk, hasDeskFile, isRival },
        hasNewPass: isDesk && !wasDesk && hasNewPass,
        devices: book.roster().devices,
        shared: sharing.view(),
        ...(invitation && { invitation }),
        ...(invitedAt !== undefined && { invitedAt }),
        ...(refused && { refused }),
      }
    },
    stop: () => stops.forEach((stop) => stop()),
  }
}
