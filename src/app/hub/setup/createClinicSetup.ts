import { createEmitter } from '../../../core/basics/emitter.ts'
import { isDeviceName } from '../../../core/hub/readRoster.ts'
import { readText } from '../../../core/text/readText.ts'
import { ClinicKeyError } from '../../../ports/clinicKeys.ts'
import { HubError } from '../../../ports/hubFault.ts'
import { wakeIn } from '../../../ports/patience.ts'
import { StorageError } from '../../../ports/storageFault.ts'
import { HalfRevoked } from '../deskActs.ts'
import type { ClinicSetup, ClinicSetupActs, ClinicSetupDeps } from './clinicSetup.ts'
import type { ClinicSetupView, SetupAct, SetupTold } from './clinicSetupView.ts'
import { NoDeskFile } from './deskSide.ts'
import { createFounding } from './foundHere.ts'
import { createJoining } from './joinHere.ts'
import { runMember, type RunningMember } from './runMember.ts'

/** The rest of a code's time is shown by the second. */
const TICK_ms = 1000
/** The longest name of a device, as the roster has it. */
const NAME_MAX = 40

/** Founding, joining and looking after a clinic: one act at a time, and what came of the last one. */
export function createClinicSetup(deps: ClinicSetupDeps): ClinicSetup {
  const { site, clock, secrets, passEnds_ms } = deps
  const changes = createEmitter<void>()
  const tell = (): void => changes.emit()
  const found = createFounding(deps)
  const joining = createJoining(deps, tell)
  let running: RunningMember | undefined
  let told: SetupTold | undefined
  let isBusy = false
  let cancelTick: (() => void) | undefined

  function follow(): void {
    const member = deps.member()
    if (running?.member !== member) {
      running?.stop()
      running = member && runMember(deps, member, tell)
    }
    tell()
  }
  deps.onMember(follow)
  follow()

  function view(): ClinicSetupView {
    const { clinic } = site
    if (secrets.isLocked()) return { kind: 'locked', clinic }
    const common = { clinic, isBusy, ...(told && { told }) }
    if (!running) {
      const step = joining.step()
      return { ...common, kind: 'none', ...(step && { joining: step }) }
    }
    const ends_ms = passEnds_ms(running.member.pass().jwt)
    return {
      ...common,
      ...running.view(),
      clinic: running.member.clinic,
      kind: 'member',
      ...(ends_ms !== undefined && { passEnds_ms: ends_ms }),
    }
  }

  function tick(): void {
    cancelTick?.()
    cancelTick = running?.desk.join.view()?.isOpen
      ? wakeIn(clock, TICK_ms, () => {
          tell()
          tick()
        })
      : undefined
  }

  /** One act at a time: the same button twice is one act. */
  async function act(
    name: SetupAct | 'join',
    work: () => Promise<SetupTold | undefined>,
  ): Promise<void> {
    if (isBusy) return
    isBusy = true
    told = secrets.isLocked() ? { kind: 'locked' } : undefined
    tell()
    try {
      if (!told) told = await work()
    } catch (error) {
      told = failureOf(name, error)
    }
    isBusy = false
    tell()
    tick()
  }
  const named = (
    typed: string,
    work: (name: string) => Promise<SetupTold | undefined>,
  ): Promise<SetupTold | undefined> => {
    const read = readText(typed, 'name', NAME_MAX)
    return read.ok && isDeviceName(read.value)
      ? work(read.value)
      : Promise.resolve({ kind: 'badName' })
  }
  const desk = (
    name: SetupAct,
    work: (running: RunningMember) => Promise<SetupTold | undefined>,
  ): Promise<void> =>
    act(name, () => (running ? work(running) : Promise.resolve({ kind: 'failed', act: name })))

  const acts: ClinicSetupActs = {
    found: (deskFile, name) => act('found', () => named(name, (read) => found(read, deskFile))),
    join: (code, name) => act('join', () => named(name, (read) => joining.join(read, code))),
    stopJoining: () => joining.stop(),
    invite: () =>
      void desk('admit', async (of) => {
        await of.desk.invite()
        return undefined
      }),
    admit: () =>
      desk('admit', async (of) => {
        const device = of.desk.join.view()?.asking?.name
        if (device === undefined) return undefined
        await of.desk.join.admit()
        return { kind: 'done', act: 'admit', device }
      }),
    refuse: () => running?.desk.join.refuse(),
    closeInvitation: () => running?.desk.join.close(),
    revoke: (device) =>
      desk('revoke', async (of) => {
        await of.desk.acts.revoke(device)
        return { kind: 'done', act: 'revoke', device: of.nameOf(device) }
      }).then(() => {
        // Whom it was about is told by name.
        if (told?.kind === 'halfRevoked')
          told = { ...told, device: running?.nameOf(device) ?? device }
        tell()
      }),
    makeDesk: (device) =>
      desk('makeDesk', async (of) => {
        await of.desk.makeDesk(device)
        return { kind: 'done', act: 'makeDesk', device: of.nameOf(device) }
      }),
    share: () =>
      desk('share', async (of) => {
        const came = await of.sharing.share(of.desk.signer)
        return came === 'stale' ? { kind: 'shareStale' } : { kind: 'done', act: 'share' }
      }),
    beginAnew: () => deps.startAnew(),
    leave: () =>
      act('leave', async () => {
        running?.stop()
        await deps.leave()
        follow()
        return undefined
      }),
  }

  return { view, onChange: changes.observe, acts }
}

function failureOf(name: SetupAct | 'join', error: unknown): SetupTold {
  if (error instanceof HalfRevoked) return { kind: 'halfRevoked', device: '' }
  if (error instanceof NoDeskFile) return { kind: 'noDeskFile' }
  if (error instanceof ClinicKeyError || error instanceof StorageError) {
    return { kind: error.fault === 'locked' ? 'locked' : 'notKept' }
  }
  if (name === 'join') return { kind: 'joinRefused', why: 'failed' }
  return { kind: 'failed', act: name, ...(error instanceof HubError && { fault: error.fault }) }
}
