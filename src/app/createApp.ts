import { createStore, type StoreApi } from 'zustand/vanilla'
import { planDraw } from '../core/plan/planDraw.ts'
import { policyChanges } from '../core/policy/policy.ts'
import { isDevicePrefix } from '../core/protocol/drawId.ts'
import type { DrawOpened } from '../core/protocol/events.ts'
import { openScenario } from '../core/scenario/openScenario.ts'
import type { Scenario } from '../core/scenario/scenario.ts'
import { calendarDate } from '../core/time/format.ts'
import type { AppActions, AppState, Screen } from './appApi.ts'
import type { OrderDraft } from './order/orderDraft.ts'
import { createCoach, type Coach } from './draw/coach.ts'
import { freshDrawId } from './draw/drawIds.ts'
import { planAgain } from './draw/planAgain.ts'
import { createDrawRunner, type DrawRunner } from './draw/drawRunner.ts'
import { createVoiceControl, type VoiceControl } from './draw/voiceControl.ts'
import { blankDraft, demoDraft, planInput } from './order/planInput.ts'
import { readDraft } from './order/readDraft.ts'
import { readSettings } from './site/readSettings.ts'
import type { AppDeps } from './appDeps.ts'
import { testInfo } from './record/testInfo.ts'
import { createRecordActions } from './record/recordActions.ts'
import { DEFAULT_SETTINGS, type Settings } from './site/settings.ts'
import { troubleText } from './site/storageTexts.ts'

export interface App {
  readonly store: StoreApi<AppState>
  readonly actions: AppActions
  /** Reads what is stored; resolves when the first screen may be shown. */
  start(): Promise<void>
  /** Opens a practice draw: the scenario's order, an invented patient, and its script on the screen. */
  startPractice(scenario: Scenario): Promise<void>
}

const SETTINGS_KEY = 'settings'

/** Joins the parts: forms and plans in, one running draw, its record out. */
export function createApp(deps: AppDeps): App {
  const { site, clock, logStore } = deps
  const { testName } = testInfo(site.catalogue)
  let runner: DrawRunner | undefined
  let ears: VoiceControl | undefined

  const store = createStore<AppState>(() => ({
    screen: 'home',
    settings: DEFAULT_SETTINGS,
    draft: blankDraft(site),
    draftErrors: [],
    plan: undefined,
    draw: undefined,
    record: undefined,
    draws: [],
    trouble: undefined,
  }))
  const set = (change: Partial<AppState>): void => store.setState(change)
  const today = (): string => {
    const { wall_ms, offset_min } = clock.read()
    return calendarDate({ at_ms: wall_ms, offset_min })
  }
  /** Runs a piece of work whose failure the person must hear of. */
  const guarded = async <T>(what: string, work: () => Promise<T>): Promise<T | undefined> => {
    try {
      return await work()
    } catch (error) {
      set({ trouble: `${what} ${troubleText(error, deps.storageTexts)}` })
      return undefined
    }
  }
  const refreshDraws = async (): Promise<void> => {
    const draws = await guarded('The stored draws cannot be read.', () => logStore.list())
    if (draws) set({ draws })
  }

  function startRunner(
    stored?: Parameters<typeof createDrawRunner>[1],
    script?: Coach,
  ): DrawRunner {
    stopRunner()
    const { settings } = store.getState()
    const started = createDrawRunner(
      {
        clock,
        store: logStore,
        sound: deps.sound,
        sha256: deps.sha256,
        words: site.words,
        prompts: site.prompts,
        phrases: site.phrases,
        testName,
        onView: (draw) => set({ draw }),
        onUnsaved: (message) =>
          set({
            trouble:
              message &&
              `Not saved on this device: ${message} The draw goes on in memory; keep this page open.`,
          }),
        onMoved: () => ears?.moved(),
        onListening: (wanted) => ears?.setPaused(!wanted),
        isHearing: () => ears?.hearing() ?? false,
        planAgain: (state) => planAgain(state, site, today()),
        ...(script ? { coach: script } : {}),
      },
      stored,
    )
    runner = started
    ears = createVoiceControl({
      clock,
      sound: deps.sound,
      phrases: site.phrases,
      makeSpeech: deps.makeSpeech,
      settings,
      draw: started,
    })
    void ears.start()
    return started
  }

  function stopRunner(): void {
    runner?.stop()
    void ears?.stop()
    runner = undefined
    ears = undefined
  }

  const newDrawId = (): Promise<string> =>
    freshDrawId(deps, store.getState().settings.devicePrefix, today())

  async function begin(event: DrawOpened, script?: Coach): Promise<void> {
    await startRunner(undefined, script).open(event)
    set({ screen: 'draw' })
    await refreshDraws()
  }

  async function openDraw(): Promise<void> {
    const { plan, draft, settings } = store.getState()
    const reading = readDraft(draft, today())
    if (!plan || plan.problems.length > 0 || !reading.ok) return
    const device = settings.devicePrefix
    const demo = draft.invented
    const name = demo ? site.demo.collector.name : settings.collectorName
    const initials = demo ? site.demo.collector.initials : settings.collectorInitials
    await begin({
      type: 'drawOpened',
      drawId: await newDrawId(),
      device,
      invented: demo,
      site: demo ? site.demo.siteName : settings.siteName,
      patient: reading.patient,
      order: reading.order,
      preparation: reading.preparation,
      needleSet: draft.needleSet,
      collector: { id: initials || name || device, name, initials },
      plan,
      policy: site.policy,
      policyChanges: policyChanges(site.defaultPolicy, site.policy),
    })
  }

  async function startPractice(scenario: Scenario): Promise<void> {
    const device = store.getState().settings.devicePrefix
    const drawId = await newDrawId()
    const event = openScenario(scenario, site, { drawId, device, today: today() })
    if (event.plan.problems.length > 0) {
      set({ trouble: event.plan.problems.map(({ text }) => text).join(' ') })
      return
    }
    await begin(event, createCoach(scenario))
  }

  const records = createRecordActions({
    ...deps,
    set,
    get: () => store.getState(),
    guarded,
    refreshDraws,
  })

  const actions: AppActions = {
    ...records,
    go: (screen: Screen) => {
      const log = runner?.session.log()
      if (log && (screen === 'labels' || screen === 'chart')) set({ record: log })
      set({ screen })
      if (screen === 'home') void refreshDraws()
    },
    startDemo: () =>
      set({ draft: demoDraft(site), draftErrors: [], plan: undefined, screen: 'order' }),
    newDraw: () =>
      set({ draft: blankDraft(site), draftErrors: [], plan: undefined, screen: 'order' }),
    editDraft: (change: Partial<OrderDraft>) =>
      set({
        draft: { ...store.getState().draft, ...change },
        draftErrors: store.getState().draftErrors.filter(({ field }) => !(field in change)),
        plan: undefined,
      }),
    makePlan: () => {
      const { draft } = store.getState()
      const reading = readDraft(draft, today())
      if (!reading.ok) {
        set({ draftErrors: reading.errors, plan: undefined })
        return
      }
      const plan = planDraw(planInput(reading, draft, site, today()))
      set({ plan, draftErrors: [], screen: 'plan' })
    },
    openDraw,
    command: async (command, source, transcript) => runner?.dispatch(command, source, transcript),
    resume: async (drawId) => {
      if (runner?.session.state().opened?.drawId !== drawId) {
        const log = await guarded('The draw cannot be read.', () => logStore.load(drawId))
        if (!log) return
        startRunner(log)
      }
      set({ screen: 'draw' })
    },
    changeSettings: (change) => {
      const { devicePrefix } = change
      if (devicePrefix !== undefined && !isDevicePrefix(devicePrefix)) return
      const settings = { ...store.getState().settings, ...change }
      set({ settings })
      applySound(settings)
      void guarded('The settings cannot be saved.', () =>
        deps.settingsStore.write(SETTINGS_KEY, JSON.stringify(settings)),
      )
    },
    dismissTrouble: () => set({ trouble: undefined }),
  }

  function applySound(settings: Settings): void {
    deps.sound.setVolume(settings.volume)
    deps.sound.setSilent(settings.silent)
    deps.sound.setVoice?.(settings.promptVoice)
  }

  async function start(): Promise<void> {
    const text = await guarded('The settings cannot be read.', () =>
      deps.settingsStore.read(SETTINGS_KEY),
    )
    const { settings, trouble } = readSettings(text)
    set(trouble === undefined ? { settings } : { settings, trouble })
    applySound(settings)
    if (!settings.devicePrefix) actions.changeSettings({ devicePrefix: deps.newDevicePrefix() })
    deps.sound.onTrouble((message) => set({ trouble: message }))
    await refreshDraws()
  }

  return { store, actions, start, startPractice }
}
