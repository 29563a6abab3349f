import { logOf, sampleOpening, straightLines } from '../support/sampleLog.ts'
import { putDraws, storedDraws } from './database.ts'
import { see } from './drive.ts'
import type { Fault } from './fault.ts'
import { alarmOf, bandOn, confirm, lostFromStore, until, type Trial } from './trial.ts'

const family = 'amount'
const STORED_n = 2000
const IN_ONE_PAGE_n = 100

/** Closed draws of invented patients, each with a whole chain; their numbers stand before those of any device. */
function closedLogs(from: number, n: number) {
  return Array.from({ length: n }, (_, i) => {
    const drawId = `00-20261124-${String(from + i + 1).padStart(4, '0')}`
    return logOf(straightLines(sampleOpening({ drawId })))
  })
}

/** Goes through so many short draws in the page itself, each ended by a refusal. */
const manyDraws = ({ page }: Trial, n: number): Promise<number> =>
  page.evaluate(async (wanted) => {
    const find = (text: RegExp): HTMLElement | undefined =>
      [...document.querySelectorAll<HTMLElement>('button')].find((each) =>
        text.test(each.textContent ?? ''),
      )
    let draws = 0
    const press = async (text: RegExp): Promise<void> => {
      for (let tries = 0; tries < 1000; tries++) {
        const button = find(text)
        // Presses wait for a moment after each change of the draw.
        if (button && !document.querySelector('.draw[data-held]')) return button.click()
        await new Promise((resolve) => setTimeout(resolve, 10))
      }
      const shown = document.querySelector('.draw .say')?.textContent ?? document.title
      throw new Error(`There is no button ${String(text)} in draw ${draws + 1}: ${shown}`)
    }
    for (; draws < wanted; draws++) {
      await press(/invented demo/)
      await press(/Plan the tubes/)
      await press(/Start the draw/)
      await press(/patient confirmed/)
      await press(/consent refused/)
      for (let steps = 0; steps < 2000 && !document.querySelector('.draw .closed'); steps++) {
        const choice =
          document.querySelector<HTMLElement>('.draw:not([data-held]) .answers .choice.main') ??
          document.querySelector<HTMLElement>('.draw:not([data-held]) [data-place="answer"]')
        choice?.click()
        await new Promise((resolve) => setTimeout(resolve, 20))
      }
      await press(/Back to the start/)
    }
    return draws
  }, n)

export const AMOUNT_FAULTS: readonly Fault[] = [
  {
    id: 'manyStoredDraws',
    family,
    did: `${STORED_n} closed draws are stored, each with a whole chain; the app is opened and a draw begun (real).`,
    long: true,
    run: async (stage) => {
      const trial = await stage.trial()
      for (let from = 0; from < STORED_n; from += 200) {
        await putDraws(trial.page, closedLogs(from, 200))
      }
      const since_ms = Date.now()
      await trial.page.reload({ waitUntil: 'commit' })
      const seen = await see(trial.page, /Both hands on the draw/, since_ms)
      await bandOn(trial)
      await confirm(trial)
      const band = await alarmOf(trial)
      const lost = await lostFromStore(trial)
      const { length } = await storedDraws(trial.page)
      const wrong = length === STORED_n + 1 ? [] : [`${length} draws are stored`]
      return { seen, band, lost, wrong }
    },
  },
  {
    id: 'manyDrawsInOnePage',
    family,
    did: `${IN_ONE_PAGE_n} draws are begun and ended in one page, one after another, then one more (real).`,
    long: true,
    run: async (stage) => {
      const trial = await stage.trial()
      const draws = await manyDraws(trial, IN_ONE_PAGE_n)
      await bandOn(trial)
      const since_ms = Date.now()
      await confirm(trial)
      const seen = await see(trial.page, /^blood in the tubing/i, since_ms)
      const band = await alarmOf(trial)
      await until(async () => (await storedDraws(trial.page)).length > draws)
      const lost = await lostFromStore(trial)
      const { length } = await storedDraws(trial.page)
      const wrong = length === IN_ONE_PAGE_n + 1 ? [] : [`${length} draws are stored`]
      return { seen, band, lost, wrong }
    },
  },
]
