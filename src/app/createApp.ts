import { createStore, type StoreApi } from 'zustand/vanilla'
import { storageFaultOf } from '../ports/storageFault.ts'
import { faulty, ok } from '../core/basics/result.ts'
import { isClosed } from '../core/protocol/isClosed.ts'
import { calendarDate } from '../core/time/format.ts'
import { followClinic } from './actions/followClinic.ts'
import { createSetupActions } from './actions/followSetup.ts'
import { createEraseActions } from './actions/eraseActions.ts'
import { createDraftActions } from './actions/draftActions.ts'
import { createDrawActions } from './actions/drawActions.ts'
import { ofNobody, stateAtStart } from './stateAtStart.ts'
import { createVersionActions } from './actions/versionActions.ts'
import { createSettingsActions } from './actions/settingsActions.ts'
import type { AppActions, AppState, Screen } from './appApi.ts'
import type { AppDeps, AppParts } from './appDeps.ts'
import { createOwnVoiceActions } from './actions/ownVoiceActions.ts'
import { createBench } from './bench/createBench.ts'
import { createCourier } from './courier/createCourier.ts'
import { createBetween } from './day/createBetween.ts'
import { createDay } from './day/createDay.ts'
import { createDrawLogs } from './draw/drawLogs.ts'
import { createLeftRunning } from './draw/leftRunning.ts'
import { mustStayLit } from './draw/mustStayLit.ts'
import { planAgain } from './draw/planAgain.ts'
import { createRunningDraw } from './draw/runningDraw.ts'
import { unsavedView } from './draw/unsavedView.ts'
import { createQuietSound } from './voice/quietSound.ts'
import { isQuiet, mayRead } from './voice/earTrouble.ts'
import { createScorePracticeDraw } from './figures/scorePracticeDraw.ts'
import { createFiguresActions } from './figures/figuresActions.ts'
import { createHandOver } from './handOver/createHandOver.ts'
import { createIntake } from './intake/createIntake.ts'
import { noClinic } from './hub/clinic.ts'
import { tellingStores } from './hub/tellingStores.ts'
import { createLock } from './lock/createLock.ts'
import { createDigestActions } from './record/digestActions.ts'
import { createImportActions } from './record/importActions.ts'
import { createKeyActions } from './record/keyActions.ts'
import { openingOf } from '../core/record/openingOf.ts'
import { isOldPractice } from './record/oldPractice.ts'
import { createSeriesActions } from './series/seriesActions.ts'
import { createSeriesBook } from './series/seriesBook.ts'
import { createSeriesWatch } from './series/seriesWatch.ts'
import { createRecordActions } from './record/recordActions.ts'
import { shortTestName } from './view/shortTestName.ts'
import { testInfo } from './record/testInfo.ts'
import { createOwnStock } from './site/ownStock.ts'
import { createOwnVoices } from './voice/ownVoices.ts'
import { brokenText, troubleText } from './site/storageTexts.ts'

export interface App {
  readonly store: StoreApi<AppState>
  readonly actions: AppActions
  /**
   * Reads what is stored; resolves when the first screen may be shown.
   * @param troubles what went wrong before, to be told on it
   */
  start(troubles?: readonly string[]): Promise<void>
  /** A draw is under way here or something is not saved: the page must keep what it has. */
  isBusy(): boolean
}

/** Screens of a record as it is stored, which no running draw need be there for. */
const OF_RECORDS: ReadonlySet<string> = new Set(['chart', 'exposure', 'score'])

/** Joins the parts: forms and plans in, one running draw, its record out. */
export function createApp(given: AppDeps): App {
  const { clinic = noClinic } = given
  const { site, clock } = given
  const store = createStore<AppState>(() => stateAtStart(site, clock.read().wall_ms))
  const quiet = (): boolean => isQuiet(store.getState().settings, given.earpiece.state())
  const sound = createQuietSound({
    ...given,
    prompts: site.prompts,
    isQuiet: quiet,
    mayRead: () => mayRead(store.getState().settings),
  })
  const deps = { ...given, ...(given.clinic && tellingStores(given, clinic)), clinic, sound }
  const set = (change: Partial<AppState>): void => store.setState(change)

  const logs = createDrawLogs(deps)
  const unsaved = () => [...logs.unsaved(), ...day.book.unsaved()]
  const tellUnsaved = (): void => {
    set({ unsaved: unsavedView(unsaved(), deps.storageTexts) })
    if (unsaved().some(({ error }) => storageFaultOf(error) === 'locked')) lock.noticeForeignPin()
    lock.reconsider()
  }
  logs.onUnsaved(tellUnsaved)
  logs.onCleared(() => set({ trouble: deps.storageTexts.cleared }))
  deps.page.onLeave(() => retryNow())
  deps.page.onReturn(() => {
    retryNow()
    running.lookNow()
    watch.lookNow()
    bench.lookNow()
    left.lookNow()
    handOver.lookNow()
    void ownVoice.load()
  })
  deps.screenWake.onState((wake) => set({ wake }))
  store.subscribe((state) => {
    if (mustStayLit(state)) deps.screenWake.hold()
    else deps.screenWake.release()
    deps.versions.setBusy(isBusy())
  })
  deps.page.askBeforeLeaving(() => unsaved().length > 0)

  const isBusy = (): boolean => running.isWriting() || unsaved().length > 0
  const retryNow = (): void => {
    logs.retryNow()
    day.book.retryNow()
  }

  const scorePracticeDraw = createScorePracticeDraw(site, deps.scenarios, deps.sha256)
  const parts: AppParts = {
    ...deps,
    logs,
    intake: createIntake(deps.jobs, site),
    stock: createOwnStock(deps.settingsStore, site.catalogue.tubes),
    ownVoices: createOwnVoices({ ...deps, phrases: site.phrases }),
    set,
    get: () => store.getState(),
    guarded: async (what, work) => {
      try {
        return ok(await work())
      } catch (error) {
        const fault = `${what} ${troubleText(error, deps.storageTexts)}`
        set({ trouble: fault })
        return faulty([fault])
      }
    },
    refreshDraws: async () => {
      const draws = await parts.guarded(site.texts.screens.told.drawsUnread, () => logs.list())
      if (!draws.ok) return
      const elsewhere = new Set(clinic.draws().map(({ drawId }) => drawId))
      set({ draws: draws.value.filter(({ drawId }) => !elsewhere.has(drawId)) })
      const now_ms = clock.read().wall_ms
      const open = await book.open(draws.value)
      const series = open.filter((each) => !isOldPractice(each, now_ms))
      // The records may have been locked meanwhile.
      if (store.getState().lock.state === 'locked') return
      // With the last sample that was waited for, what the clock did meanwhile is told.
      set(series.length > 0 ? { series } : { series, seriesClockStep_ms: 0 })
      watch.watch(series)
      // The first screen does not wait for the bench.
      void bench.refresh()
    },
    today: () => {
      const { wall_ms, offset_min } = clock.read()
      return calendarDate({ at_ms: wall_ms, offset_min })
    },
  }

  const drafts = createDraftActions(parts)
  const day = createDay(parts, drafts.makePlan, (drawId) => running.log(drawId))
  day.book.onUnsaved(tellUnsaved)
  const book = createSeriesBook({ logs })
  const watch = createSeriesWatch({
    ...deps,
    drawing: () => running.drawing(),
    onBeat: (seriesNow_ms, dues_ms) => set({ seriesNow_ms, dues_ms }),
    onClockStep: (by_ms) =>
      set({ seriesClockStep_ms: store.getState().seriesClockStep_ms + by_ms }),
  })
  const running = createRunningDraw({
    ...deps,
    logs,
    words: site.words,
    prompts: site.prompts,
    phrases: site.phrases,
    testName: testInfo(site.catalogue).testName,
    shortTestName: shortTestName(site.catalogue),
    texts: site.texts,
    voiceTexts: site.texts.voice,
    settings: () => store.getState().settings,
    phrasesFor: (s) => ownVoice.phrasesFor(s),
    onView: (draw) => {
      set({ draw })
      if (draw.closed) lock.reconsider()
    },
    brokenText: (fault) => brokenText(fault, deps.storageTexts, site.texts.log),
    onStart: (drawId) => left.leave(drawId),
    onLog: (log) => {
      bench.notice(log)
      if (isClosed(log)) void settings.countDown(log)
      if (isClosed(log)) void ownVoice.noticeClosed(log)
      if (isClosed(log)) handOver.noticeWritten()
      if (isClosed(log) && openingOf(log).sitting) void parts.refreshDraws()
      if (isClosed(log) || store.getState().records.has(log.drawId)) records.show(log)
    },
    isQuiet: quiet,
    onTones: (tonesOnly) => settings.actions.changeSettings({ tonesOnly }),
    onPrintLabels: (drawId) => void go({ name: 'labels', drawId, from: 'draw' }),
    planAgain: (state) => planAgain(state, site, parts.today(), parts.stock.current()),
  })
  const left = createLeftRunning({
    ...deps,
    words: site.words,
    texts: site.texts,
    onView: (draws) => set({ left: draws }),
  })
  const lock = createLock({
    ...deps,
    texts: site.texts.lock,
    onView: (view) => set({ lock: view }),
    onOpen: () => void showRecords(),
    onLock: forget,
    isDrawing: () => running.isWriting(),
    hasUnsaved: () => unsaved().length > 0,
    lockAfter_min: () => store.getState().settings.lockAfter_min,
  })
  deps.page.onUse(() => lock.noticeUse())
  const settings = createSettingsActions(parts, isBusy)
  const ownVoice = createOwnVoiceActions(parts)
  store.subscribe(() => ownVoice.follow())
  const draws = createDrawActions(parts, running, book, day)
  const records = createRecordActions(parts, running)
  const bench = createBench({ parts, running, add: records.add, day })
  const courier = createCourier({ parts, day, bench, add: records.add })
  const between = createBetween({
    parts,
    day: day.actions,
    bench: bench.actions,
    courier,
    isDrawing: () => running.isWriting(),
  })
  store.subscribe((state) => between.reconsider(state))
  followClinic({
    ...{ parts, book: day.book, bench, running },
    countDown: (logs) => settings.countDownOthers(logs),
    onListed: () => handOver.noticeListed(),
  })
  const setup = createSetupActions(parts)
  const handOver = createHandOver({
    parts,
    book: day.book,
    isDrawing: () => running.isWriting(),
    refreshDay: () => day.refresh(),
  })
  store.subscribe(() => handOver.noticeScreen())
  const keys = createKeyActions(parts)
  const version = createVersionActions(parts, isBusy)
  const erase = createEraseActions(parts, running, records.actions.exportRecord, day, handOver)
  const imports = createImportActions(parts, keys, (drawId) => go({ name: 'chart', drawId }))

  /** The records may be looked at: what waited for that is done, and a draw that was running is gone on with. */
  async function showRecords(): Promise<void> {
    retryNow()
    clinic.remember()
    await parts.refreshDraws()
    await day.refresh()
    void bench.chartRest()
    void handOver.start()
    await erase.dropOldPractice()
    const [first] = store.getState().left
    if (first) await go({ name: 'draw', drawId: first.drawId })
  }

  /** Nothing that names a patient stays on the page. */
  function forget(): void {
    running.end()
    imports.forget()
    day.forget()
    bench.forget()
    clinic.forget()
    set(ofNobody(site))
    handOver.forget()
  }

  /** Reads what a screen shows; answers whether it can be shown. */
  async function ready(screen: Screen): Promise<boolean> {
    switch (screen.name) {
      case 'draw':
        return draws.goOn(screen.drawId)
      case 'chart':
      case 'exposure':
      case 'score':
      case 'labels': {
        const record = await records.read(screen.drawId)
        if (record.ok) records.show(record.value)
        if (screen.name === 'chart') void imports.loadOrigin(screen.drawId)
        return record.ok
      }
      case 'bench':
        // What is known is shown at once; what other pages did meanwhile comes in behind.
        void parts
          .refreshDraws()
          .then(() => bench.refresh(true))
          .then(() => bench.chartRest())
        return true
      case 'handOver':
        await handOver.refresh()
        return true
      case 'courier':
        await courier.refresh()
        return true
      case 'micCheck':
        void ownVoice.load()
        return true
      case 'settings':
      case 'clinic':
        void keys.load()
        void ownVoice.load()
        return true
      default:
        return true
    }
  }

  let asked = 0
  async function go(screen: Screen): Promise<void> {
    const mine = ++asked
    const shown = await ready(screen)
    // Where another screen was asked for meanwhile, that one is shown.
    if (!shown || mine !== asked) return
    set({ screen })
    running.attend('drawId' in screen && !OF_RECORDS.has(screen.name) ? screen.drawId : undefined)
    if (screen.name !== 'home') return
    void settings.takeLanguage()
    await parts.refreshDraws()
    await day.refresh()
    // A draw that was open on another page may have closed: what was done to its tubes meanwhile is charted.
    void bench.chartRest()
  }

  return {
    store,
    actions: {
      go,
      day: day.actions,
      bench: bench.actions,
      courier,
      handOver: handOver.actions,
      ...drafts,
      ...draws.actions,
      ...records.actions,
      ...createSeriesActions(parts, running, book, records.add),
      ...createDigestActions(parts),
      clinicSetup: setup.actions,
      figures: createFiguresActions({ ...parts, scorePracticeDraw }),
      ...keys.actions,
      ...imports.actions,
      ...settings.actions,
      ownVoice: ownVoice.actions,
      ...lock.actions,
      ...erase.actions,
      ...version.actions,
      dismissTrouble: () => set({ trouble: undefined }),
    },
    isBusy,
    start: async (troubles = []) => {
      await settings.load()
      await ownVoice.load()
      deps.sound.onTrouble((trouble) =>
        set({ soundTrouble: trouble && site.texts.voice.sound[trouble.code] }),
      )
      version.start()
      lock.start()
      day.start()
      void handOver.arrive()
      void deps.page.keptElsewhere().then((keptAt) => set({ keptAt }))
      void deps.page.askToKeep().then((storageKept) => set({ storageKept }))
      if (store.getState().lock.state === 'locked') {
        // The records cannot be read, but the clocks of a draw that was running can.
        await left.start()
      } else {
        await parts.refreshDraws()
        await day.refresh()
        void bench.chartRest()
        await erase.dropOldPractice()
        await draws.watchOpenDraw()
        void handOver.start()
      }
      // Nothing on the screen waits for what was kept of the others.
      void clinic.start()
      void setup.start()
      const told = [store.getState().trouble, ...troubles].filter((text) => text !== undefined)
      if (told.length > 0) set({ trouble: told.join(' ') })
    },
  }
}
