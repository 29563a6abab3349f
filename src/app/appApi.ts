import type { StockTube } from '../core/catalogue/catalogue.ts'
import type { Command } from '../core/protocol/commands.ts'
import type { CheckedLog } from '../core/log/readStored.ts'
import type { Source } from '../core/protocol/entry.ts'
import type { HeldMove } from '../core/voice/heldEars.ts'
import type { Approval } from '../core/order/order.ts'
import type { NotedMoment } from '../core/order/sitting.ts'
import type { Plan } from '../core/plan/plan.ts'
import type { PlannedSitting } from '../core/plan/planSittings.ts'
import type { Series } from '../core/record/seriesRecord.ts'
import type { StoredDraw } from '../ports/logStore.ts'
import type { TextFile } from '../ports/page.ts'
import type { Chime } from '../ports/sound.ts'
import type { WakeState } from '../ports/screenWake.ts'
import type { VersionState } from '../ports/versions.ts'
import type { LeftDraw } from './draw/leftRunning.ts'
import type { ClinicView, OtherDraw } from './hub/clinic.ts'
import type { ClinicSetupActs } from './hub/setup/clinicSetup.ts'
import type { ClinicSetupView } from './hub/setup/clinicSetupView.ts'
import type { MovedClinic } from './hub/setup/findHub.ts'
import type { FiguresActions } from './figures/figuresActions.ts'
import type { FiguresView } from './figures/figuresView.ts'
import type { HandOverActions, HandOverView } from './view/handOverView.ts'
import type { LockActions, LockView } from './lock/lockView.ts'
import type { UnsavedView } from './draw/unsavedView.ts'
import type { ChosenFile } from './intake/chosenFile.ts'
import type { DraftError, OrderDraft } from './order/orderDraft.ts'
import type { BetweenView } from './view/betweenView.ts'
import type { BenchActions, BenchView } from './view/benchViewTypes.ts'
import type { CourierActions, CourierCount, CourierView } from './view/courierView.ts'
import type { DayActions, DayView } from './view/dayViewTypes.ts'
import type { DrawDigest } from './view/drawDigest.ts'
import type { TrustedKey } from './site/keyring.ts'
import type { Settings } from './site/settings.ts'
import type { Collector } from './site/whoDraws.ts'
import type { TroubleText } from './site/voiceTexts.ts'
import type { OwnVoiceActions, OwnVoiceView } from './view/ownVoiceView.ts'
import type { DrawView } from './view/drawViewTypes.ts'

/** Screens that show no draw. */
export type PlainScreen =
  | 'home'
  | 'bench'
  | 'order'
  | 'plan'
  | 'practice'
  | 'figures'
  | 'handOver'
  | 'courier'
  | 'catalogue'
  | 'micCheck'
  | 'settings'
  | 'clinic'

/** Where the person is. A screen that shows a draw names it, so that it cannot come to show another one. */
export type Screen =
  | { readonly name: PlainScreen }
  | { readonly name: 'draw' | 'chart' | 'exposure' | 'score'; readonly drawId: string }
  /** `from` is where its way back leads. */
  | { readonly name: 'labels'; readonly drawId: string; readonly from: 'draw' | 'chart' }

export interface AppState {
  readonly screen: Screen
  readonly settings: Settings
  readonly draft: OrderDraft
  readonly draftErrors: readonly DraftError[]
  readonly plan: Plan | undefined
  /** Every draw of the order with its own plan, the first of which is `plan`. */
  readonly sittings: readonly PlannedSitting[]
  /** The sitting of a series already begun that the plan is for. */
  readonly resumed: ResumedSitting | undefined
  /** Stops of the plan that a named provider let pass. */
  readonly approvals: readonly Approval[]
  /** The draw that is on this page, running or just closed; a screen shows it only under its own id. */
  readonly draw: DrawView | undefined
  /** Logs behind the chart and label screens, each under the id of its draw. */
  readonly records: ReadonlyMap<string, CheckedLog>
  readonly draws: readonly StoredDraw[]
  /** Draws that other devices of the clinic write. */
  readonly others: readonly OtherDraw[]
  /** How this device stands to its clinic; `undefined` where it belongs to none. */
  readonly clinic: ClinicView | undefined
  /** Founding, joining and looking after the clinic; `undefined` where the site has no hub. */
  readonly clinicSetup: ClinicSetupView | undefined
  /** Another page has joined a clinic or left it since this one was loaded. */
  readonly clinicMoved: MovedClinic | undefined
  /** What goes to the site's record server. */
  readonly handOver: HandOverView
  readonly courier: CourierView
  /** What of it is in the hand. */
  readonly count: CourierCount
  readonly day: DayView
  readonly bench: BenchView
  /** The ears between patients; `undefined` while they are closed. */
  readonly between: BetweenView | undefined
  /** What the list tells of draws that were looked at, by id. */
  readonly digests: ReadonlyMap<string, DrawDigest>
  /** What the figures are made of, as far as it was read here. */
  readonly figures: FiguresView
  /** Series with something left to do. */
  readonly series: readonly Series[]
  /** Unix ms at the last look at them. */
  readonly seriesNow_ms: number
  /** When samples are due, without anything that says whose; also while the records are locked. */
  readonly dues_ms: readonly number[]
  /** By how much the clock was set while samples were waited for, ms. */
  readonly seriesClockStep_ms: number
  /** A sentence about something that went wrong outside a draw (storage, import). */
  readonly trouble: string | undefined
  /** What is recorded and not yet on the disk; shown for as long as it lasts, on every screen. */
  readonly unsaved: UnsavedView | undefined
  /** Why alarms or prompts may not be heard, and what to do; shown for as long as it lasts, on the draw above all. */
  readonly soundTrouble: TroubleText | undefined
  /** Why nothing is spoken to the ear that was chosen, and what is heard instead; shown for as long as it lasts. */
  readonly earTrouble: TroubleText | undefined
  readonly lock: LockView
  /** While the records are locked: draws that were running when their page was lost. */
  readonly left: readonly LeftDraw[]
  /** Whether the browser has promised to keep what is stored; `undefined` while or where it does not say. */
  readonly storageKept: boolean | undefined
  /** What was learned here of how the person who draws speaks. */
  readonly ownVoice: OwnVoiceView
  /** Tubes on hand as the site counts them; `undefined` where it counts none. */
  readonly stock: readonly StockTube[] | undefined
  /** Whether the screen stays lit while a draw is on it. */
  readonly wake: WakeState
  readonly version: VersionState
  /** Address at which the records are kept, where it is not this one. */
  readonly keptAt: string | undefined
  /** A log that is read and waits for an answer before it is taken in. */
  readonly importQuestion: ImportQuestion | undefined
  /** What can be said of the files that draws were brought in as, in sentences, by the id of the draw. */
  readonly origins: ReadonlyMap<string, readonly string[]>
  /** Keys that are known here; read when a screen shows them. */
  readonly keys: KeysView
}

export interface ResumedSitting {
  readonly series: string
  readonly key: string
}

export interface ImportQuestion {
  readonly question: string
  /** What is proven of the log, what not, and what is odd. */
  readonly lines: readonly string[]
  /** There is one unknown key, which may be given a name with the answer. */
  readonly mayName: boolean
}

export interface KeysView {
  readonly own: { readonly publicKey: string; readonly keyId: string } | undefined
  readonly trusted: readonly (TrustedKey & { readonly keyId: string })[]
}

export type ExportFormat = 'note' | 'strip' | 'fhir' | 'transaction' | 'log' | 'exposure'

/** Everything the screens can ask for. None throws; what goes wrong appears in `trouble` or in the views. */
export interface AppActions extends LockActions {
  readonly courier: CourierActions
  readonly day: DayActions
  readonly bench: BenchActions
  readonly figures: FiguresActions
  /** Does nothing where the site has no hub. */
  readonly clinicSetup: ClinicSetupActs
  readonly handOver: HandOverActions
  readonly ownVoice: OwnVoiceActions
  /** Shows a screen; one that shows a draw is shown once that draw's log is read. */
  go(screen: Screen): Promise<void>
  startDemo(): void
  newDraw(): void
  editDraft(change: Partial<OrderDraft>): void
  /** Checks the draft, plans the tubes and goes to the plan screen if the draft can be read. */
  makePlan(): void
  /** A named provider lets a stop of the plan pass; answers what is missing of it, in words. */
  approveStop(decision: Omit<Approval, 'at_ms'>): string | undefined
  /** Opens the draw for the plan on screen; does nothing while the plan has problems. */
  openDraw(): Promise<void>
  /** Opens a practice draw by the id of its script: an invented patient, and the script on the screen. */
  startPractice(scenarioId: string): Promise<void>
  /** Writes the draw here that another page writes. */
  takeOver(): Promise<void>
  /** Opens the draw of a sitting that is due, or goes to the one that was opened before. */
  openSitting(series: string, key: string): Promise<void>
  /**
   * A moment that the samples of a series are counted from: now, or at a time that is typed.
   * @param told `10:32`, today or yesterday, and why it is another than before
   */
  tellMoment(
    series: string,
    moment: NotedMoment,
    told?: { readonly time?: string; readonly why?: string },
  ): Promise<void>
  /** Sittings that will not be drawn, and why. */
  leaveOutSittings(series: string, keys: readonly string[], why: string): Promise<void>
  /** Somebody named lets the rest of a series be drawn although something happened in one of its draws. */
  goOnWithSeries(series: string, by: string, why: string): Promise<void>
  command(command: Command, source: Source, transcript?: string): Promise<void>
  /** The key, the pedal or the bar that holds the ears of the draw open goes down or up, or is lost. */
  holdEars(move: HeldMove): void
  /** Takes a record off this device and shows the first screen. */
  eraseRecord(drawId: string): Promise<void>
  /** Erases every record older than the site keeps them; answers how many. */
  eraseOld(): Promise<number>
  /** Offers the log of each of them as a file. */
  saveOld(): Promise<void>
  /** Reads what the list of draws tells of these into `digests`. */
  readDigests(drawIds: readonly string[]): Promise<void>
  /** `wrongPerson`: it says that the blood is of another person than the record names. */
  addAddendum(drawId: string, text: string, why: string, wrongPerson?: true): Promise<void>
  /** Adds to the record of a closed draw what came later: the specimens' way, late trouble. */
  addLater(drawId: string, command: Command): Promise<void>
  /** Sounds the alarm; resolves with how it went, in words. */
  testAlarm(): Promise<string>
  /** Sounds a tone where prompts go; resolves with how it went, in words. */
  testEar(): Promise<string>
  /** Sounds one of the tones that stand for words. */
  hearTone(name: Chime): void
  changeSettings(change: Partial<Settings>): void
  /** Keeps who draws here from now on; answers what is missing of it, in words. */
  sayWhoDraws(who: Collector): string | undefined
  /** Text of a record in a format, or `undefined` with the reason in `trouble`. */
  exportRecord(drawId: string, format: ExportFormat): Promise<TextFile | undefined>
  /** Reads a log and takes it in, or asks first in `importQuestion`. */
  importLog(file: ChosenFile): Promise<void>
  /** @param keyName whose the unknown key is, if the person says so */
  answerImport(take: boolean, keyName?: string): Promise<void>
  trustKey(publicKey: string, name: string): Promise<void>
  forgetKey(publicKey: string): Promise<void>
  importOrder(file: ChosenFile): Promise<void>
  /** Keeps the site's own catalogue on this device and begins anew with it. */
  keepCatalogue(json: string): Promise<void>
  /** Begins anew with the shipped catalogue. */
  forgetCatalogue(): Promise<void>
  /** The same for the site's own limits. */
  keepPolicy(json: string): Promise<void>
  /** The same for the laboratories that specimens go to; `''` for the shipped ones. */
  keepLaboratories(json: string): Promise<void>
  /** How the site's record server names things, as JSON; in use from the next start on. */
  keepRecordSystems(json: string): Promise<void>
  /** Takes a newer version of the app and begins anew with it; nothing happens while anything is under way. */
  takeVersion(): Promise<void>
  /** Takes a stock in place of the one before; `undefined` where nobody counts any more. */
  keepStock(lots: readonly StockTube[] | undefined): Promise<void>
  dismissTrouble(): void
}
