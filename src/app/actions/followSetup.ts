import type { ClinicSetup, ClinicSetupActs } from '../hub/setup/clinicSetup.ts'
import type { AppParts } from '../appDeps.ts'

/** Shows how this device stands to the site's clinic once that is known, and passes on what a person asks for. */
export function createSetupActions({ findClinicSetup, clinicMoved, page, set }: AppParts) {
  let setup: ClinicSetup | undefined

  /** Another page of this device may have joined a clinic or left it; a page that was frozen did not hear of it. */
  function watchOthers(): void {
    const look = (): void => void clinicMoved?.look().then((moved) => set({ clinicMoved: moved }))
    clinicMoved?.onTold(look)
    if (clinicMoved) page.onReturn(look)
  }

  async function start(): Promise<void> {
    watchOthers()
    const found = await findClinicSetup?.().catch(() => undefined)
    if (!found) return
    if ('faults' in found) {
      set({ clinicSetup: { kind: 'badSite', faults: found.faults } })
      return
    }
    setup = found
    const { siteFaults } = found
    const show = (): void => {
      const view = found.view()
      const isTold = siteFaults && 'isBusy' in view
      set({ clinicSetup: isTold ? { ...view, siteFaults } : view })
    }
    found.onChange(show)
    show()
  }

  const acts = (): ClinicSetupActs | undefined => setup?.acts
  const actions: ClinicSetupActs = {
    found: async (deskFile, name) => acts()?.found(deskFile, name),
    join: async (code, name) => acts()?.join(code, name),
    stopJoining: () => acts()?.stopJoining(),
    invite: () => acts()?.invite(),
    admit: async () => acts()?.admit(),
    refuse: () => acts()?.refuse(),
    closeInvitation: () => acts()?.closeInvitation(),
    revoke: async (device) => acts()?.revoke(device),
    makeDesk: async (device) => acts()?.makeDesk(device),
    share: async () => acts()?.share(),
    beginAnew: () => (setup ? setup.acts.beginAnew() : page.startAnew()),
    leave: async () => acts()?.leave(),
  }
  return { actions, start }
}
