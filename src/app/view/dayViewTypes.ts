import type { ListedItem } from '../../core/day/dayState.ts'
import type { ChosenFile } from '../intake/chosenFile.ts'

/** The day's list as the screens show it. */
export interface DayView {
  readonly items: readonly ListedItem[]
}

export const NO_DAY: DayView = { items: [] }

/** What a person can do with the day's list. None rejects; what goes wrong is told. */
export interface DayActions {
  /** Puts the order of the form on the list, if the form can be read, and goes to the list. */
  addDraft(): Promise<void>
  /** Reads files of orders and puts what can be read on the list; the rest is told, each with its reason. */
  addFiles(files: readonly ChosenFile[]): Promise<void>
  /** @param by who cancels */
  cancel(orderIds: readonly string[], by: string, why: string): Promise<void>
}
