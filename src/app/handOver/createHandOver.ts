import type { HandOverLogin } from '../../core/handOver/handOverState.ts'
import { createLooks } from '../../core/basics/looks.ts'
import { createTurns } from '../../core/basics/turns.ts'
import { fillText } from '../../core/basics/fillText.ts'
import type { Result } from '../../core/basics/result.ts'
import { drawKey, type HandOverRow } from '../../core/handOver/handOverRow.ts'
import { isToDo } from '../../core/day/orderStatus.ts'
import type { DayItem } from '../../core/day/dayList.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { RecordServerFile } from '../site/recordServerFile.ts'
import type { AppParts } from '../appDeps.ts'
import type { DayBook } from '../day/dayBook.ts'
import type { Connected } from '../site/handOverDeps.ts'
import { servedBy } from '../order/servedBy.ts'
import { createOneAtATime } from '../draw/oneAtATime.ts'
import { NO_HAND_OVER, type HandOverActions, type HandOverView } from '../view/handOverView.ts'
import { drawJobs } from './drawJobs.ts'
import { fetchOrders } from './fetchOrders.ts'
import type { HandOverJob } from './handOverJob.ts'
import {
  keepHandOverSettings,
  readHandOverSettings,
  type HandOverSettings,
} from './handOverSettings.ts'
import { changeRows, noteEarlier } from './keptRows.ts'
import { createQueue, type Queue } from './queue.ts'
import { requestsOf } from './requestsOf.ts'
import { taskJobs } from './taskJobs.ts'

export interface HandOver {
  readonly actions: HandOverActions
  /** Looks what the site says, and goes on with a launch from a chart: a code that came back does not wait. */
  arrive(): Promise<void>
  start(): Promise<void>
  /** Something was recorded. */
  noticeWritten(): void
  /** The lists have what the clinic's other devices did, as far as this one knows. */
  noticeListed(): void
  /** The page is seen again, or the network is back. */
  lookNow(): void
  /** Another screen is shown: the tubes of an order may be planned from now on, or not any more. */
  noticeScreen(): void
  /** Reads anew what a screen shows. */
  refresh(): Promise<void>
  /** Nothing that a server said stays on the page. */
  forget(): void
  /** The record of a draw waits to be handed over: it must not be erased before. */
  isWaiting(drawId: string): boolean
}

interface Given {
  readonly parts: AppParts
  readonly book: DayBook
  /** A draw is written on this page. */
  readonly isDrawing: () => boolean
  readonly refreshDay: () => Promise<void>
}

const MINUTE_ms = 60_000

/** The hand-over to the site's record server, where the site names one. */
export function createHandOver({ parts, book, isDrawing, refreshDay }: Given): HandOver {
  const { get, set, settingsStore, site, clock } = parts
  const given = parts.handOver
  let found: Result<RecordServerFile> | undefined
  let file: RecordServerFile | undefined
  const { told } = site.texts.handOver
  const once = createOneAtATime()
  const inTurn = createTurns()
  let settings: HandOverSettings = { isPaused: false }
  let connected: Connected | undefined
  let queue: Queue | undefined
  let view: HandOverView = NO_HAND_OVER
  /** Each time the records are unlocked it starts anew. */
  let isFaultTold = false
  /** Before that a draw may be another device's by now, and an order drawn: nothing is told of either. */
  let isListed = parts.clinic.isRead()

  const isLocked = (): boolean => get().lock.state === 'locked'
  const isOn = (): boolean => file !== undefined && settings.onFor === file.address

  function stateOf(): HandOverView['state'] {
    if (!found) return 'none'
    if (!file) return 'unread'
    if (settings.onFor === undefined) return 'off'
    if (!isOn()) return 'otherServer'
    if (settings.isPaused) return 'paused'
    const now = queue?.state()
    if (isDrawing()) return 'drawing'
    if (!isListed) return 'reading'
    if (now?.isElsewhere) return 'elsewhere'
    if (now?.trouble) return 'waiting'
    return now?.isSending ? 'sending' : 'idle'
  }

  function show(change: Partial<HandOverView> = {}): void {
    const now = queue?.state()
    const state = stateOf()
    // What kept it back before somebody pressed pause is nothing to act on, and no try follows.
    const isWaiting = state === 'waiting'
    view = {
      ...view,
      ...change,
      state,
      server: file?.address,
      faults: found && !found.ok ? found.faults : [],
      trouble: isWaiting ? now?.trouble : undefined,
      next_ms: isWaiting ? now?.next_ms : undefined,
      login: loginOf(file),
    }
    const { before: _before, ...rest } = view
    const isOther = view.state === 'otherServer'
    const before = isOther && settings.onFor !== undefined ? { before: settings.onFor } : {}
    set({ handOver: { ...rest, ...before } })
  }

  /** Reads what is kept; while the records are locked nothing is shown of them. */
  async function refresh(): Promise<void> {
    if (!given || isLocked()) return
    const read = await parts.guarded(told.unread, async () => ({
      rows: (await given.store.rows()).map(({ row }) => row),
      left: await given.store.leavings(),
    }))
    if (read.ok && !isLocked()) show(read.value)
  }

  const readSoon = createLooks(refresh)

  const items = (): readonly DayItem[] => [
    ...get().day.rows.flatMap((row) => (row.kind === 'orders' ? row.group.items : [])),
    ...get().day.done.flatMap((group) => group.items),
  ]

  /** Told before the draw begins: while it runs nothing is sent, and others must not begin it too. */
  const planned = (): readonly string[] => {
    const { screen, draft } = get()
    return screen.name === 'plan' ? (servedBy(draft)?.ids ?? []) : []
  }
  let lastPlanned = ''

  async function wanted(): Promise<readonly HandOverJob[]> {
    const { devicePrefix } = get().settings
    const tasks = file
      ? taskJobs(items(), {
          ...parts,
          texts: { ...site.recordTexts.handOver.task, status: site.recordTexts.day.status },
          server: file.address,
          devicePrefix,
          planned: planned(),
        })
      : []
    return [...(await drawsWanted()), ...tasks]
  }

  async function connect(): Promise<Connected | undefined> {
    if (!given || !file) return undefined
    connected ??= await given.connect(file)
    return connected
  }

  async function begin(): Promise<void> {
    if (queue) {
      queue.lookNow()
      return
    }
    const there = await connect().catch(() => undefined)
    if (!given || !there) return
    const { store, limits } = given
    queue = createQueue({
      ...{ store, clock, wanted, limits },
      server: there.server,
      lock: parts.drawLock,
      lot: () => parts.drawLot() / 2 ** 32,
      may: async () => {
        // Another page may have pressed pause.
        const before = settings
        settings = await readHandOverSettings(settingsStore)
        const { onFor, isPaused } = settings
        if (onFor !== before.onFor || isPaused !== before.isPaused) show()
        return isListed && isOn() && !settings.isPaused && !isDrawing() && !isLocked()
      },
      onChange: () => {
        show()
        readSoon()
      },
    })
    queue.start()
    beat()
  }

  async function keep(change: HandOverSettings): Promise<boolean> {
    const kept = await parts.guarded(told.unkept, () => keepHandOverSettings(settingsStore, change))
    if (kept.ok) settings = change
    show()
    return kept.ok
  }

  const now_ms = (): number => clock.read().wall_ms
  /** Of a draw that another device has taken over it hands over the record: what stands here is only its beginning. */
  const drawsWanted = async (): Promise<readonly HandOverJob[]> => {
    const stored = await parts.logStore.list()
    const far = new Set(parts.clinic.draws().map(({ drawId }) => drawId))
    return drawJobs(
      stored.filter(({ drawId }) => !far.has(drawId)),
      { ...parts, asked: (listed) => requestsOf(listed, items(), file?.address ?? '') },
    )
  }

  async function change(
    which: (row: HandOverRow) => boolean,
    to: Parameters<typeof changeRows>[2],
  ): Promise<void> {
    if (!given) return
    const { store } = given
    await parts.guarded(told.unkept, () => changeRows(store, which, to, now_ms))
    await refresh()
    queue?.lookNow()
  }

  let arriving: Promise<void> | undefined
  const arrive = (): Promise<void> =>
    (arriving ??= (async () => {
      found = await given?.find()
      file = found?.ok ? found.value : undefined
      show()
      // Only who comes from a chart makes it connect while it is off: no record is sent by it.
      if (given?.isLaunched) await connect().catch(() => undefined)
    })())

  const isReachable = (): boolean => isOn() && !settings.isPaused && !isLocked()

  async function fetchNow(isByPerson: boolean, only?: string): Promise<void> {
    const there = await connect().catch(() => undefined)
    const query = only ?? file?.orders
    if (!given || !there || query === undefined || !isReachable()) return
    show({ orders: { ...view.orders, isFetching: true } })
    await refreshDay()
    const deps = {
      ...{ parts, book, server: there.server, mostPages: given.limits.mostPages },
      toDo: () =>
        items().filter(({ status: { status } }) => isToDo(status) || status === 'inChair'),
    }
    const fetched = await fetchOrders(deps, query).catch(() => undefined)
    const known = isByPerson ? [] : view.orders.told
    show({
      orders: {
        ...view.orders,
        isFetching: false,
        last_ms: clock.read().wall_ms,
        listed_n: fetched?.listed_n ?? 0,
        elsewhere_n: fetched?.elsewhere_n ?? 0,
        trouble: fetched?.trouble,
        told: [...new Set([...known, ...(fetched?.told ?? [])])],
      },
    })
    await refreshDay()
    queue?.noticeWritten()
  }

  /** What is for this place; asked again while it is being fetched, it is fetched once. */
  const fetchPlace = (isByPerson: boolean): Promise<void> =>
    once(() => inTurn(() => fetchNow(isByPerson)))

  function beat(): void {
    const { fetchEvery_min } = given?.limits ?? { fetchEvery_min: 5 }
    wakeIn(clock, fetchEvery_min * MINUTE_ms, beat)
    if (!isDrawing() && get().screen.name === 'home') void fetchPlace(false)
  }

  const actions: HandOverActions = {
    switchOn: async () => {
      if (!file || !given) return
      const { store } = given
      const noted = await parts.guarded(told.unkept, () => noteEarlier(store, drawsWanted, now_ms))
      if (!noted.ok || !(await keep({ onFor: file.address, isPaused: false }))) return
      await begin()
      queue?.lookNow()
      await refresh()
    },
    switchOff: async () => void (await keep({ isPaused: false })),
    pause: async (isPaused) => {
      await keep({ ...settings, isPaused })
      queue?.lookNow()
    },
    sendNow: () => queue?.lookNow(),
    again: (key) => change((row) => row.key === key, { state: 'waiting' }),
    againAll: () => change(({ state }) => state === 'refused', { state: 'waiting' }),
    drop: (key, by) => change((row) => row.key === key, { state: 'dropped', by }),
    sendEarlier: () => change(({ state }) => state === 'earlier', { state: 'waiting' }),
    fetchNow: () => fetchPlace(true),
    dismissTold: () => show({ orders: { ...view.orders, told: [] } }),
    keyFile: async () => {
      const there = await connect().catch(() => undefined)
      const text = await there?.publicKeys()
      const name = `${get().settings.devicePrefix}-keys.json`
      return text === undefined ? undefined : { name, type: 'application/json', text }
    },
  }

  return {
    actions,
    arrive,
    start: async () => {
      await arrive()
      if (!found || connected?.isLeaving) return
      settings = await readHandOverSettings(settingsStore).catch(() => settings)
      show({ orders: { ...view.orders, may: file?.orders !== undefined } })
      await refresh()
      const fault = connected?.launchFault
      if (fault && !isFaultTold) {
        isFaultTold = true
        const why = site.texts.handOver.access[fault]
        set({ trouble: fillText(told.launchFailed, { why }) })
      }
      const patient = connected?.takePatient()
      if (!isOn()) {
        if (patient) set({ trouble: told.launchedOff })
        return
      }
      await begin()
      // Never dropped for what is being fetched for the place: nobody would ask for it again.
      if (patient) await inTurn(() => fetchNow(false, ofPatient(patient)))
    },
    noticeWritten: () => queue?.noticeWritten(),
    noticeListed: () => {
      if (isListed) return
      isListed = true
      show()
      queue?.noticeWritten()
    },
    lookNow: () => queue?.lookNow(),
    noticeScreen: () => {
      const now = planned().join()
      if (now === lastPlanned) return
      lastPlanned = now
      queue?.noticeWritten()
    },
    refresh,
    forget: () => {
      isListed = parts.clinic.isRead()
      view = { ...view, rows: [], left: [], orders: { ...view.orders, told: [] } }
      show()
    },
    isWaiting: (drawId) =>
      isOn() && view.rows.some((row) => row.key === drawKey(drawId) && row.state === 'waiting'),
  }
}

/** R4, search.html, "reference": with its type it is understood also where a bare id is not. */
const ofPatient = (id: string): string => `patient=${encodeURIComponent(`Patient/${id}`)}`

function loginOf(file: RecordServerFile | undefined): HandOverLogin {
  if (file?.backend && file.launch) return 'both'
  if (file?.backend) return 'backend'
  return file?.launch ? 'launch' : 'none'
}
