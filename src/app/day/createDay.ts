import { fillText } from '../../core/basics/fillText.ts'
import type { ActDone, ActedSpecimens, DayEvent } from '../../core/day/dayEvents.ts'
import type { DayCommand } from '../../core/day/decideDay.ts'
import { collectorId } from '../../core/order/collectorId.ts'
import type { Source } from '../../core/protocol/entry.ts'
import type { AppParts } from '../appDeps.ts'
import type { ChosenFile } from '../intake/chosenFile.ts'
import { readDraft } from '../order/readDraft.ts'
import type { DayActions } from '../view/dayViewTypes.ts'
import { createDayBook, type DayBook } from './dayBook.ts'
import { listedFromDraft, listedFromReading } from './listedOrders.ts'

/** An act at the bench as the day has it. */
export interface RecordedAct {
  readonly id: string
  readonly at_ms: number
}

/** The day's list: its log, and what a person does with it. */
export interface Day {
  readonly book: DayBook
  readonly actions: DayActions
  /** Reads what other pages did meanwhile; a disk that does not answer is told. */
  refresh(): Promise<void>
  /** One act on tubes of several draws, written before any of them charts it. `undefined` where there are none. */
  recordAct(
    act: ActDone,
    specimens: readonly ActedSpecimens[],
    source: Source,
    at_ms?: number,
  ): Promise<RecordedAct | undefined>
}

export function createDay(parts: AppParts): Day {
  const { get, set, site, clock, intake } = parts
  const { day: texts } = site.texts
  const by = (): string => {
    const { collectorName: name, collectorInitials: initials, devicePrefix } = get().settings
    return collectorId({ name, initials }) || devicePrefix
  }
  const book = createDayBook({ ...parts, by })

  book.onChange(({ items }) => set({ day: { items: [...items.values()] } }))
  book.onTurnedDown((refusal) => set({ trouble: texts.refusals[refusal] }))

  /** Another id for each thing that is listed or done: by lot, so that it stays when others write first. */
  function newId(kind: 'L' | 'B'): string {
    const { settings } = get()
    const day = parts.today().replaceAll('-', '')
    const lot = parts.drawLot().toString(36).toUpperCase()
    return `${settings.devicePrefix}-${day}-${kind}${lot}`
  }

  function freshIds(n: number): readonly string[] {
    const taken = new Set(book.state().items.keys())
    const ids: string[] = []
    for (let count = 1; ids.length < n; count++) {
      const lot = newId('L')
      const id = taken.has(lot) ? `${lot}-${count}` : lot
      if (taken.has(id)) continue
      taken.add(id)
      ids.push(id)
    }
    return ids
  }

  /** Answers whether it was done; why not is told. */
  async function act(command: DayCommand, source: Source = 'touch'): Promise<boolean> {
    const done = await book.act(command, source)
    if (!done.ok) set({ trouble: done.faults.map((each) => texts.refusals[each]).join(' ') })
    return done.ok
  }

  async function addDraft(): Promise<void> {
    const { draft } = get()
    const reading = readDraft(draft, parts.today(), site.texts, site.catalogue)
    if (!reading.ok) {
      set({ draftErrors: reading.faults })
      return
    }
    const [id = ''] = freshIds(1)
    const orders = [listedFromDraft(reading.value, draft, id)]
    if (await act({ type: 'listOrders', orders })) set({ screen: { name: 'home' } })
  }

  async function addFiles(files: readonly ChosenFile[]): Promise<void> {
    for (const file of files) {
      const reading = await intake.order(file, parts.today())
      if (!reading.ok) {
        const reasons = reading.faults.join(' ')
        set({ trouble: fillText(texts.told.fileRefused, { file: file.name, reasons }) })
        continue
      }
      const [id = ''] = freshIds(1)
      const from = file.name.toLowerCase().endsWith('.csv') ? 'csv' : 'fhir'
      await act({ type: 'listOrders', orders: [listedFromReading(reading.value, id, from)] })
    }
  }

  return {
    book,
    actions: {
      addDraft,
      addFiles,
      cancel: async (orderIds, who, why) => {
        await act({ type: 'orderCancelled', orderIds, by: who, why })
      },
    },
    refresh: async () => {
      const read = await parts.guarded(texts.told.unread, () => book.read())
      if (!read.ok) return
      const [broken] = book.broken()
      if (broken?.fault) {
        const { day, fault } = broken
        set({ trouble: fillText(texts.told.broken, { day, seq: fault.seq }) })
      }
    },
    recordAct: async (done, specimens, source, at_ms) => {
      const taken = new Set(book.state().acts.map(({ id }) => id))
      let id = newId('B')
      for (let count = 1; taken.has(id); count++) id = `${newId('B')}-${count}`
      const event: DayEvent = { type: 'benchActed', id, act: done, specimens }
      const now_ms = clock.read().wall_ms
      const isDone = await act(at_ms === undefined ? event : { ...event, at_ms }, source)
      return isDone ? { id, at_ms: at_ms ?? now_ms } : undefined
    },
  }
}
