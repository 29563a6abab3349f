import type { AppState } from './appApi.ts'
import { NO_FIGURES } from './figures/figuresView.ts'
import { LOCK_OFF } from './lock/lockView.ts'
import { blankDraft } from './order/planInput.ts'
import { DEFAULT_SETTINGS } from './site/settings.ts'
import type { SiteData } from './site/siteData.ts'
import { NO_BENCH } from './view/benchViewTypes.ts'
import { NO_COUNT, NO_COURIER } from './view/courierView.ts'
import { NO_HAND_OVER } from './view/handOverView.ts'
import { NO_DAY } from './view/dayViewTypes.ts'
import { NO_OWN_VOICE } from './view/ownVoiceView.ts'

/** What names a patient, as it is while nobody is named: at the start, and when the records are locked. */
export function ofNobody(site: SiteData) {
  return {
    screen: { name: 'home' as const },
    draft: blankDraft(site),
    draftErrors: [],
    plan: undefined,
    sittings: [],
    resumed: undefined,
    approvals: [],
    draw: undefined,
    records: new Map(),
    draws: [],
    others: [],
    day: NO_DAY,
    bench: NO_BENCH,
    courier: NO_COURIER,
    count: NO_COUNT,
    digests: new Map(),
    figures: NO_FIGURES,
    series: [],
    trouble: undefined,
  } satisfies Partial<AppState>
}

/** Before anything is read. */
export function stateAtStart(site: SiteData, now_ms: number): AppState {
  return {
    ...ofNobody(site),
    settings: DEFAULT_SETTINGS,
    unsaved: undefined,
    stock: undefined,
    ownVoice: NO_OWN_VOICE,
    importQuestion: undefined,
    origins: new Map(),
    keys: { own: undefined, trusted: [] },
    seriesNow_ms: now_ms,
    dues_ms: [],
    seriesClockStep_ms: 0,
    soundTrouble: undefined,
    earTrouble: undefined,
    lock: LOCK_OFF,
    left: [],
    storageKept: undefined,
    wake: 'off',
    version: 'current',
    keptAt: undefined,
    between: undefined,
    clinic: undefined,
    clinicSetup: undefined,
    clinicMoved: undefined,
    handOver: NO_HAND_OVER,
  }
}
