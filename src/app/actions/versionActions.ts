import type { AppActions } from '../appApi.ts'
import type { AppParts } from '../appDeps.ts'

/** A newer version of the app: shown outside a draw, taken with one press, never while anything is under way. */
export function createVersionActions(parts: AppParts, isBusy: () => boolean) {
  const { get, set, versions, page } = parts
  const { told } = parts.site.texts.device.version

  /** Nothing is typed, asked or recorded, so that beginning anew takes nothing from anybody. */
  const isIdle = (): boolean => {
    const { screen, importQuestion, trouble } = get()
    return screen.name === 'home' && !importQuestion && trouble === undefined && !isBusy()
  }

  const actions: Pick<AppActions, 'takeVersion'> = {
    takeVersion: async () => {
      if (isBusy()) return
      if (get().version === 'taken') {
        page.startAnew()
        return
      }
      const outcome = await versions.take()
      if (outcome === 'taken') page.startAnew()
      else set({ trouble: told[outcome] })
    },
  }
  return {
    actions,
    start: () =>
      versions.onState((version) => {
        set({ version })
        if (version === 'taken' && isIdle()) page.startAnew()
      }),
  }
}
