import type { Command } from '../core/protocol/commands.ts'
import type { DrawLog, Source } from '../core/protocol/entry.ts'
import type { Plan } from '../core/plan/plan.ts'
import type { StoredDraw } from '../ports/logStore.ts'
import type { DraftError, OrderDraft } from './order/orderDraft.ts'
import type { Settings } from './site/settings.ts'
import type { DrawView } from './view/drawViewTypes.ts'

export type Screen =
  | 'home'
  | 'order'
  | 'plan'
  | 'draw'
  | 'chart'
  | 'labels'
  | 'practice'
  | 'catalogue'
  | 'micCheck'
  | 'settings'

export interface AppState {
  readonly screen: Screen
  readonly settings: Settings
  readonly draft: OrderDraft
  readonly draftErrors: readonly DraftError[]
  readonly plan: Plan | undefined
  readonly draw: DrawView | undefined
  /** The log behind the chart and label screens. */
  readonly record: DrawLog | undefined
  readonly draws: readonly StoredDraw[]
  /** A sentence about something that went wrong outside a draw (storage, import). */
  readonly trouble: string | undefined
}

/** Everything the screens can ask for. None throws; what goes wrong appears in `trouble` or in the views. */
export interface AppActions {
  go(screen: Screen): void
  startDemo(): void
  newDraw(): void
  editDraft(change: Partial<OrderDraft>): void
  /** Checks the draft, plans the tubes and goes to the plan screen if the draft can be read. */
  makePlan(): void
  /** Opens the draw for the plan on screen; does nothing while the plan has problems. */
  openDraw(): Promise<void>
  command(command: Command, source: Source, transcript?: string): Promise<void>
  resume(drawId: string): Promise<void>
  openRecord(drawId: string): Promise<void>
  addAddendum(text: string, why: string): Promise<void>
  changeSettings(change: Partial<Settings>): void
  /** Text of the record in a format, or an explanation why not. */
  exportRecord(
    format: 'note' | 'fhir' | 'log',
  ): Promise<{ name: string; type: string; text: string } | undefined>
  importLog(text: string): Promise<void>
  importOrder(text: string): void
  dismissTrouble(): void
}
