import { createStore } from 'zustand/vanilla'
import type { AppActions, AppState } from '../../src/app/appApi.ts'
import type { AppPort } from '../../src/ui/shared/appContext.tsx'
import type { AppServices } from '../../src/app/appServices.ts'
import { SERVICES } from './fakeServices.ts'
import { STATE } from './views.ts'

type GroupOf<G extends keyof AppActions> = `${G}.${Extract<keyof AppActions[G], string>}`
const GROUPS = [
  'day',
  'figures',
  'bench',
  'courier',
  'handOver',
  'clinicSetup',
  'ownVoice',
] as const
type Group = (typeof GROUPS)[number]
type ActionName = Exclude<keyof AppActions, Group> | { [G in Group]: GroupOf<G> }[Group]

/** One call of an action, as `[name, ...arguments]`; one of a group as `day.cancel`. */
export type Call = readonly [ActionName, ...unknown[]]

export interface FakeApp extends AppPort {
  readonly calls: Call[]
  /** What an action resolves with from now on; without this, with nothing. */
  answer(name: ActionName, by: (...args: unknown[]) => unknown): void
}

/**
 * The app as the screens see it: a store with the given state and actions that note what was asked, and do
 * what a screen alone is about: the draft of the form, and the count of the packs.
 */
export function fakeApp(
  change: Partial<AppState> = {},
  services: Partial<AppServices> = {},
): FakeApp {
  const calls: Call[] = []
  const answers = new Map<ActionName, (...args: unknown[]) => unknown>()
  const store = createStore<AppState>(() => ({ ...STATE, ...change }))
  const note =
    (name: ActionName) =>
    (...args: unknown[]): Promise<unknown> => {
      calls.push([name, ...args])
      return Promise.resolve(answers.get(name)?.(...args))
    }
  const editDraft: AppActions['editDraft'] = (edit) => {
    calls.push(['editDraft', edit])
    store.setState({ draft: { ...store.getState().draft, ...edit } })
  }
  const count: AppActions['courier']['count'] = (counted) => {
    calls.push(['courier.count', counted])
    store.setState({ count: { counted } })
  }
  const group = (of: Group) =>
    new Proxy(
      {},
      {
        get: (_, name) =>
          of === 'courier' && name === 'count'
            ? count
            : note(`${of}.${String(name)}` as ActionName),
      },
    )
  const actions = new Proxy({} as AppActions, {
    get: (_, name) => {
      // The list reads by itself; nobody asked for it.
      if (name === 'readDigests') return () => Promise.resolve()
      const of = GROUPS.find((each) => each === name)
      if (of) return group(of)
      return name === 'editDraft' ? editDraft : note(name as ActionName)
    },
  })
  return {
    store,
    actions,
    services: { ...SERVICES, ...services },
    calls,
    answer: (name, by) => void answers.set(name, by),
  }
}
