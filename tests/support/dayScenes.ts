import type { AppState } from '../../src/app/appApi.ts'
import type { ReadDraw } from '../../src/app/figures/figuresView.ts'
import { createScorePracticeDraw } from '../../src/app/figures/scorePracticeDraw.ts'
import { servedDraft } from '../../src/app/day/servedDraft.ts'
import { DEFAULT_SETTINGS } from '../../src/app/site/settings.ts'
import { NOTHING_COUNTED } from '../../src/core/courier/count.ts'
import { packList } from '../../src/core/courier/packList.ts'
import { dropOffs } from '../../src/core/courier/dropOffs.ts'
import { sentPacks } from '../../src/core/courier/sentPacks.ts'
import type { ListedOrder } from '../../src/core/day/listedOrder.ts'
import { drawMeasures } from '../../src/core/figures/drawMeasures.ts'
import { planSittings } from '../../src/core/plan/planSittings.ts'
import { openScenario } from '../../src/core/scenario/openScenario.ts'
import { playScript } from '../../src/core/scenario/playScript.ts'
import type { DayScene } from './dayScene.ts'
import { texts } from './language.ts'
import { BUSY_BENCH } from './benchView.ts'
import { CLINIC_STATES } from './clinicScenes.ts'
import { FULL_DAY_ms, fullDay } from './fullDay.ts'
import { FULL_HAND_OVER } from './handOverView.ts'
import { PERSON_SCENES } from './personScenes.ts'
import {
  SAMPLE_START_ms,
  logOf,
  sampleOpening,
  secondCollector,
  sha256,
  straightLines,
  wrongPersonAddendum,
} from './sampleLog.ts'
import { sampleListed } from './sampleDay.ts'
import { LABORATORIES, sampleSpecimens } from './samplePack.ts'
import { sampleSeries } from './sampleSeries.ts'
import { SCENES } from './scenes.ts'
import { shippedScript } from './scripts.ts'
import { shippedSite } from './site.ts'

const DAY_ms = 86_400_000
const OPENED: AppState['draws'] = [
  { drawId: 'D7-20261125-0020', opened_ms: FULL_DAY_ms - 240_000, closed: false, patientName: 'Di Moor', invented: false }, // prettier-ignore
]
const EARLIER: AppState['draws'] = ['Ida Brook', 'Jo Field', 'Kay Wood', 'Lea Lake'].map(
  (patientName, i) => ({
    drawId: `D7-20261125-000${i + 3}`,
    opened_ms: FULL_DAY_ms - (50 - i) * 60_000,
    closed: true,
    patientName,
    invented: false,
  }),
)
const SERIES = [sampleSeries([[400, { type: 'momentNoted', moment: 'drinkFinished' }]])]
const PIA = { fullName: 'Pia Sand', birthDate: '1991-04-04', recordNumber: 'MRN-77' }
const UNTOLD = { ...sampleSeries([], { patient: PIA }), id: 'D7-20261125-0011' }

const WHOLE_DAY: Partial<AppState> = {
  day: fullDay(SERIES),
  bench: BUSY_BENCH,
  draws: [...OPENED, ...EARLIER],
  draw: undefined,
  series: [...SERIES, UNTOLD],
  seriesNow_ms: FULL_DAY_ms,
}

/** Tubes that wait, a pack that left with one missing, and tubes that somebody brought. */
function courier(): DayScene {
  const sent = sampleSpecimens('D7-20261125-0005', [
    [400, { type: 'courierTook', tubeIds: ['t1', 't2', 't3'], courier: 'Kim Carrier', pack: 'P1', laboratory: 'Example Laboratory', act: 'a1' }],
  ]) // prettier-ignore
  const brought = sampleSpecimens('D7-20261125-0006', [
    [400, { type: 'droppedOff', tubeIds: ['t1', 't3'], to: 'Front desk, to S. Sample', act: 'a2' }],
  ])
  const missing = { numbers: ['D7261125000402'], by: 'R. Ash' }
  const specimens = [...sampleSpecimens(), ...sampleSpecimens('D7-20261125-0004'), ...sampleSpecimens('D7-20261125-0009', [], true), ...sent, ...brought] // prettier-ignore
  return {
    state: {
      screen: { name: 'courier' },
      courier: {
        specimens,
        sent: sentPacks(sent, [{ id: 'a1', act: { type: 'courierTook', pack: 'P1' }, missing }]),
        dropped: dropOffs(brought, [{ id: 'a2', act: { type: 'droppedOff' }, specimens: [{ drawId: 'D7-20261125-0006', tubeIds: ['t1', 't3'] }] }]), // prettier-ignore
        unread: [],
      },
    },
    services: {
      site: { ...shippedSite, laboratories: LABORATORIES },
      now_ms: () => SAMPLE_START_ms + 600_000,
    },
  }
}

/** Counted by voice, with what is held back and what has left of another person. */
function courierByVoice(): DayScene {
  const of = sampleSpecimens('D7-20261125-0008', [
    [400, { type: 'courierTook', tubeIds: ['t1'], courier: 'Kim Carrier', pack: 'P1' }],
    [500, wrongPersonAddendum],
  ]) // prettier-ignore
  const all = sampleSpecimens()
  const [pack] = packList(all, LABORATORIES, shippedSite.catalogue)
  const scene = courier()
  return {
    ...scene,
    state: {
      ...scene.state,
      settings: { ...DEFAULT_SETTINGS, voiceOn: true, listenBetween: true },
      between: { listening: { state: { kind: 'listening' }, level: 0.4 } },
      courier: { specimens: [...all, ...of], sent: [], dropped: [], unread: [] },
      count: {
        counted: NOTHING_COUNTED,
        ...(pack && { said: { of: 'short', pack, before: NOTHING_COUNTED } }),
      },
    },
  }
}

/** Two orders of one patient that share a draw, the first a recollection, with their plan. */
function requestOfTwo(): DayScene {
  const ward = { kind: 'ward', text: 'Ward 2, bed 4' } as const
  const again = { drawId: 'D7-20261124-0002', tubeIds: ['t2'], reason: 'RH', note: 'told by phone' }
  const order = (n: string, tests: readonly string[], change: Partial<ListedOrder> = {}) =>
    sampleListed({
      id: `L${n}`,
      place: ward,
      order: {
        orderNumber: `O-${n}`,
        tests,
        priority: 'routine',
        provider: `Dr. Placeholder ${n}`,
      },
      ...change,
    })
  const first = order('04', ['bmp', 'vitaminD'], { recollects: again })
  const draft = servedDraft([first, order('05', ['cbc'])], shippedSite)
  const { demo } = shippedSite
  const asked = { ...demo, order: { ...demo.order, tests: draft.tests } }
  const sittings = planSittings({ ...shippedSite, ...asked, today: '2026-11-25' })
  return { state: { screen: { name: 'plan' }, draft, sittings, plan: sittings[0].plan } }
}

/** A closed draw each day by one of two people, every fifth with a remark, every seventh with the band over its limit. */
function figures(days: number, byPerson = false): DayScene {
  const read = new Map<string, ReadDraw>()
  const draws: AppState['draws'][number][] = []
  for (let n = 0; n < days; n++) {
    const drawId = `D7-20261125-${String(n + 1).padStart(4, '0')}`
    const opened_ms = SAMPLE_START_ms - n * DAY_ms
    const opening = sampleOpening({ drawId, ...(n % 3 === 0 && { collector: secondCollector }) })
    const lines = straightLines(opening).flatMap((line): (typeof line)[] => {
      const [at_s, event, extra = {}] = line
      return n % 7 === 0 && event.type === 'bandOff' ? [[at_s + 22 + n, event, extra]] : [line]
    })
    const more = n % 5 === 0 ? ([[168, { type: 'flagRaised', flag: 'mixedLate' }]] as const) : []
    const measures = drawMeasures(logOf([...lines, ...more], opened_ms), texts.record)
    read.set(drawId, { kind: 'measured', hash: String(n), measures })
    draws.push({ drawId, opened_ms, closed: true, patientName: 'Alex Invented', invented: false })
  }
  return {
    state: {
      screen: { name: 'figures' },
      draws,
      figures: { read, reading: undefined },
      settings: { ...DEFAULT_SETTINGS, siteName: 'Invented practice', figuresByPerson: byPerson },
    },
    // The screen is loaded when it is asked for; this waits for it and changes nothing.
    press: ['.figureCards'],
  }
}

/** A rehearsal that began by one script, went as another has it, and is scored by the first. */
function score(script: string, went: string): DayScene {
  const { scenario } = shippedScript(went)
  const opening = openScenario(scenario, shippedSite, { drawId: 'D7-20261125-0003', device: 'D7', today: '2026-11-25', script }) // prettier-ignore
  const log = playScript(scenario, opening, sha256)
  const scored = shippedScript(script)
  return {
    state: { screen: { name: 'score', drawId: log.drawId }, records: new Map([[log.drawId, log]]) },
    services: {
      scenarios: [scored],
      scorePracticeDraw: createScorePracticeDraw(shippedSite, [scored], sha256),
    },
  }
}

/** The clinic's screen is loaded when it is asked for; this waits for it. */
const clinicScenes = Object.fromEntries(
  Object.entries(CLINIC_STATES).map(([name, state]) => [
    name,
    (): DayScene => ({ state, services: { now_ms: () => FULL_DAY_ms }, press: ['.formSection'] }), // prettier-ignore
  ]),
)

/** The screens of the day, by name; each is made when it is asked for. */
export const DAY_SCENES: Readonly<Record<string, () => DayScene>> = {
  dayFull: () => ({ state: WHOLE_DAY }),
  dayListAlone: () => ({ state: { day: fullDay(), draws: EARLIER, draw: undefined } }),
  dayNone: () => ({ state: { draws: [], draw: undefined } }),
  daySupplies: () => ({ state: { ...WHOLE_DAY, stock: shippedSite.stock }, press: ['.supplies > summary'] }), // prettier-ignore
  benchBusy: () => ({ state: { screen: { name: 'bench' }, bench: BUSY_BENCH } }),
  courierFull: courier,
  courierByVoice,
  handOverFull: () => ({
    state: { screen: { name: 'handOver' }, handOver: FULL_HAND_OVER },
    // The screen is loaded when it is asked for; this waits for it and changes nothing.
    press: ['.handOverParts'],
  }),
  requestOfTwo,
  figuresFew: () => figures(3),
  figuresMany: () => figures(60),
  figuresByPerson: () => figures(60, true),
  ...clinicScenes,
  ...PERSON_SCENES,
  voiceKnown: () => ({ state: SCENES.micCheckKnown ?? {}, press: ['.ownVoice summary'] }),
  score: () => score('straight-draw', 'straight-draw'),
  scoreLost: () => score('straight-draw', 'faint-with-needle'),
  catalogueRow: () => ({
    state: { screen: { name: 'catalogue' } },
    press: ['.catalogueRow > summary', '.catalogueRow[open] .rowOfButtons > button'],
  }),
}
