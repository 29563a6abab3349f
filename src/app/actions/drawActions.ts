import { elsewhereTexts } from '../view/elsewhereTexts.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { defined } from '../../core/basics/defined.ts'
import { collectorId } from '../../core/order/collectorId.ts'
import type { DrawSitting } from '../../core/order/sitting.ts'
import { mayOpen } from '../../core/plan/decisions.ts'
import { policyChanges } from '../../core/policy/policy.ts'
import type { Command } from '../../core/protocol/commands.ts'
import type { DrawOpened } from '../../core/protocol/events.ts'
import { replay } from '../../core/protocol/evolve.ts'
import { bodyIsSafe } from '../../core/protocol/facts.ts'
import { openScenario } from '../../core/scenario/openScenario.ts'
import type { Series } from '../../core/record/seriesRecord.ts'
import type { AppActions, ResumedSitting } from '../appApi.ts'
import type { AppParts } from '../appDeps.ts'
import { createCoach, type Coach } from '../draw/coach.ts'
import { freshDrawId } from '../draw/drawIds.ts'
import { createOneAtATime } from '../draw/oneAtATime.ts'
import type { RunningDraw } from '../draw/runningDraw.ts'
import { createUsedNumbers } from '../draw/usedNumbers.ts'
import { skinPlaceOf } from '../order/planInput.ts'
import { draftMoments } from '../order/draftMoments.ts'
import type { Day } from '../day/createDay.ts'
import { readDraft } from '../order/readDraft.ts'
import { zoneNow } from '../day/zoneNow.ts'
import { servedBy } from '../order/servedBy.ts'
import { whoDraws } from '../site/whoDraws.ts'
import { readRecord } from '../record/readRecord.ts'
import type { SeriesBook } from '../series/seriesBook.ts'
import { screenLanguage } from '../site/screenLanguage.ts'
import { createSittingDraws } from '../series/sittingDraws.ts'

/** So long after its last entry an open draw is taken for one that somebody still stands beside. */
const WATCH_ms = 60 * 60_000

type DrawActions = Pick<
  AppActions,
  'openDraw' | 'openSitting' | 'startPractice' | 'takeOver' | 'command' | 'holdEars'
>

/** Begins draws and goes on with them; a second press while one is being begun counts for nothing. */
export function createDrawActions(
  parts: AppParts,
  running: RunningDraw,
  book: SeriesBook,
  day: Pick<Day, 'claim' | 'refresh'>,
) {
  const { set, get, site, today, clinic } = parts
  const once = createOneAtATime()
  const numbers = createUsedNumbers({ ...parts, draws: () => get().draws })

  const sittingDraws = createSittingDraws(parts, running, book)

  const onNoAnswer = (): void => set({ trouble: parts.storageTexts.numberByLot })
  const isGiven = (drawId: string): boolean => clinic.load(drawId) !== undefined
  const newDrawId = (): Promise<string> =>
    freshDrawId({ ...parts, onNoAnswer, isGiven }, get().settings.devicePrefix, today())

  async function begin(event: DrawOpened, script?: Coach): Promise<void> {
    await running.open(event, script)
    // A plan opens one draw.
    set({
      screen: { name: 'draw', drawId: event.drawId },
      plan: undefined,
      sittings: [],
      resumed: undefined,
      approvals: [],
    })
    await parts.refreshDraws()
  }

  async function openDraw(): Promise<void> {
    const { plan, draft, settings, approvals, sittings, resumed } = get()
    const reading = readDraft(draft, today(), site.texts, site.catalogue)
    const [first, ...later] = sittings
    if (!plan || !first || !reading.ok) return
    if (!sittings.every((sitting) => mayOpen(sitting.plan, approvals))) return
    if (!draft.invented && whoDraws(settings, parts.clock.read().wall_ms) !== 'said') {
      // The plan's screen asks.
      set({ screen: { name: 'plan' } })
      return
    }
    const served = servedBy(draft)
    if (draft.served && !served) {
      set({ trouble: site.texts.day.told.otherPatient })
      return
    }
    const device = settings.devicePrefix
    const demo = draft.invented
    const name = demo ? site.demo.collector.name : settings.collectorName
    const initials = demo ? site.demo.collector.initials : settings.collectorInitials
    const eventAs = (drawId: string, sitting: DrawSitting | undefined): DrawOpened =>
      defined({
        type: 'drawOpened' as const,
        drawId,
        device,
        invented: demo,
        site: demo ? site.demo.siteName : settings.siteName,
        ...reading.value,
        order: defined({ ...reading.value.order, tests: first.tests, parts: served?.parts }),
        needleSet: draft.needleSet,
        collecting: skinPlaceOf(draft),
        collector: { id: collectorId({ name, initials }) || device, name, initials },
        patientLanguage: draft.patientLanguage || screenLanguage(site),
        plan,
        policy: site.policy,
        policyChanges: policyChanges(site.defaultPolicy, site.policy),
        fillCorrections: site.fillCorrections.length > 0 ? site.fillCorrections : undefined,
        labelsBy: settings.labelsBy === 'laboratory' ? settings.labelsBy : undefined,
        approvals: approvals.length > 0 ? approvals : undefined,
        sitting,
        listed: served?.ids,
        recollects: served?.recollects,
      })
    if (resumed) {
      await sittingDraws.begin(resumed, async (sitting) =>
        begin(eventAs(await newDrawId(), sitting)),
      )
      return
    }
    const refused = served && (await day.claim(served.ids))
    if (refused !== undefined) {
      set({ trouble: refused })
      return
    }
    const drawId = await newDrawId()
    const isSeries = first.parts.length > 0
    const moments = draftMoments(draft, site.catalogue, zoneNow(parts.clock))
    const begun = {
      ...(moments.length > 0 && { moments }),
      series: drawId,
      parts: first.parts,
      ...(later.length > 0 && { later: later.flatMap((sitting) => sitting.parts) }),
    }
    await begin(eventAs(drawId, isSeries ? begun : undefined))
  }

  async function startPractice(script: string, sitting?: DrawSitting): Promise<void> {
    const chosen = parts.scenarios.find(({ id }) => id === script)
    if (!chosen) return
    const device = get().settings.devicePrefix
    const drawId = await newDrawId()
    const as = { drawId, device, today: today(), script, ...defined({ sitting }) }
    const event = openScenario(chosen.scenario, site, as)
    if (event.plan.problems.length > 0) {
      set({ trouble: event.plan.problems.map(({ text }) => text).join(' ') })
      return
    }
    const number = sitting?.parts[0]?.number
    await begin(event, createCoach(chosen.scenario, site.texts.draw.coach, number))
  }

  /** A draw of a series; that of practice goes on by its script. */
  async function openSitting(as: ResumedSitting): Promise<void> {
    const script = practiceOf(get().series.find(({ id }) => id === as.series))
    if (script !== undefined) await sittingDraws.begin(as, (next) => startPractice(script, next))
    else if (await sittingDraws.prepare(as)) await openDraw()
  }

  const practiceOf = (series: Series | undefined): string | undefined => {
    const { invented, sitting } = series?.opened ?? {}
    const script = invented ? sitting?.practice?.script : undefined
    return parts.scenarios.find(({ id }) => id === script)?.id
  }

  /** With a number of the laboratory's goes where else on this device it stands. */
  async function withUse(command: Command): Promise<Command> {
    const { draw } = get()
    if (command.type !== 'scanLabel' && command.type !== 'takeAccession') return command
    if (draw?.labelsBy !== 'laboratory') return command
    return defined({ ...command, usedIn: await numbers.otherDraw(command.text, draw.drawId) })
  }

  /** The draw on the screen is written here from now on: by this page, or by this device of the clinic. */
  async function takeOver(): Promise<void> {
    const { draw, others } = get()
    const far = others.find(({ drawId }) => drawId === draw?.drawId)
    if (!far) return running.takeOver()
    const { clinic: texts } = site.texts
    const { settings } = get()
    if (whoDraws(settings, parts.clock.read().wall_ms) !== 'said') {
      set({ trouble: texts.take.whoDraws })
      return
    }
    const taken = await clinic.takeOver(far.drawId)
    if (taken.kind === 'refused') {
      const device = taken.by ?? far.deviceName
      set({ trouble: fillText(texts.take[taken.why], { device }) })
      return
    }
    const stored = await parts.logs.load(far.drawId).catch(() => undefined)
    const note = fillText(texts.elsewhere.note, { from: taken.from, to: taken.to })
    if (!stored || !(await running.goOnFrom(stored, note))) {
      set({ trouble: texts.take.unknown })
      return
    }
    const { collectorName: name, collectorInitials: initials } = settings
    const to = { id: collectorId({ name, initials }), name, initials }
    // What was said of an earlier try is not so any more, and who draws at both chairs hands over to nobody.
    set({ trouble: undefined })
    if (replay(stored.entries).collector.id !== to.id)
      await running.dispatch({ type: 'handOver', to }, 'touch')
    await parts.refreshDraws()
  }

  const actions: DrawActions = {
    openDraw: () => once(openDraw),
    openSitting: (series, key) => once(() => openSitting({ series, key })),
    startPractice: (id) => once(() => startPractice(id)),
    takeOver: () => once(takeOver),
    command: async (command, source, transcript) =>
      running.dispatch(await withUse(command), source, transcript),
    holdEars: (move) => running.holdEars(move),
  }
  /**
   * After a reload with the band on or the needle in, the alarms of that draw sound again before anybody has gone on
   * with it. A rehearsal has no arm to be alarmed for, and an older draw has long been dealt with.
   */
  async function watchOpenDraw(): Promise<void> {
    const now_ms = parts.clock.read().wall_ms
    const [last] = get().draws.filter(({ closed, invented }) => !closed && !invented)
    if (!last) return
    const log = await parts.logs.load(last.drawId).catch(() => undefined)
    if (!log) return
    const state = replay(log.entries)
    const away_ms = now_ms - state.last.at.wall_ms
    if (!bodyIsSafe(state) && away_ms < WATCH_ms) await running.watch(log)
  }

  return {
    actions,
    watchOpenDraw,
    /** Has that draw on this page, from the store where it does not run here; answers whether it could be had. */
    async goOn(drawId: string): Promise<boolean> {
      if (running.log(drawId)) return true
      const far = clinic.load(drawId)
      if (far) {
        const device = get().others.find((other) => other.drawId === drawId)?.deviceName ?? ''
        const elsewhere = elsewhereTexts(site.texts.clinic, 'running', device)
        await running.lookOn(far, () => clinic.load(drawId), elsewhere)
        set({ records: new Map(get().records).set(drawId, far) })
        return true
      }
      const log = await readRecord(parts, drawId)
      if (!log.ok) return false
      await running.goOn(log.value)
      set({ records: new Map(get().records).set(drawId, log.value) })
      return true
    },
  }
}
