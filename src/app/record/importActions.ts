import { fillText } from '../../core/basics/fillText.ts'
import { hasUnknownKey, verdictLines } from '../../core/log/verdict.ts'
import { openingOf } from '../../core/record/openingOf.ts'
import { shownText } from '../../core/text/shownText.ts'
import { dayMonthYear } from '../../core/time/format.ts'
import type { AppActions, ImportQuestion, Screen } from '../appApi.ts'
import type { AppParts } from '../appDeps.ts'
import { fileOf } from '../intake/chosenFile.ts'
import type { LogOffer } from '../intake/intakeJobs.ts'
import type { createKeyActions } from './keyActions.ts'

type ImportActions = Pick<AppActions, 'importLog' | 'answerImport'>

/** Takes in a log that another device wrote: read out of the way, asked about where its key is not known here. */
export function createImportActions(
  parts: AppParts,
  keys: ReturnType<typeof createKeyActions>,
  showRecord: (drawId: string) => Promise<void>,
) {
  const { set, get, guarded, intake, logStore } = parts
  const { log: texts, screens } = parts.site.texts
  const { told } = screens
  let pending: LogOffer | undefined

  const now_ms = (): number => parts.clock.read().wall_ms

  /** @param asked the screen on which it was asked for; whoever went elsewhere meanwhile is left there */
  async function take({ log, original }: LogOffer, asked: Screen): Promise<void> {
    const done = await guarded(told.logUntaken, () => logStore.adopt(log, original))
    if (!done.ok) return
    if (get().screen === asked) await showRecord(log.drawId)
    await parts.refreshDraws()
  }

  const actions: ImportActions = {
    importLog: async (file) => {
      const { screen } = get()
      pending = undefined
      set({ importQuestion: undefined })
      const reading = await intake.log(file, await keys.known(), now_ms())
      if (!reading.ok) {
        set({ trouble: fillText(told.logRefused, { reason: reading.faults.join(' ') }) })
      } else if (hasUnknownKey(reading.value.verdict)) {
        pending = reading.value
        set({ importQuestion: questionOf(reading.value) })
      } else await take(reading.value, screen)
    },

    answerImport: async (yes, keyName) => {
      const { screen } = get()
      const offer = pending
      pending = undefined
      set({ importQuestion: undefined })
      if (!offer || !yes) return
      const unknown = unknownKeys(offer)
      if (keyName?.trim() && unknown.length === 1) {
        for (const { publicKey } of unknown) await keys.trust(publicKey, keyName)
      }
      await take(offer, screen)
    },
  }

  /** Looks up what a draw was brought in as, for its record. */
  async function loadOrigin(drawId: string): Promise<void> {
    const original = await guarded(told.drawUnread, () => logStore.original(drawId))
    if (!original.ok || original.value === undefined) return
    const file = fileOf(drawId, original.value)
    const reading = await intake.log(file, await keys.known(), now_ms())
    const lines = reading.ok ? verdictLines(reading.value.verdict, texts) : reading.faults
    set({ origins: new Map(get().origins).set(drawId, lines) })
  }

  function questionOf(offer: LogOffer): ImportQuestion {
    const { patient } = openingOf(offer.log)
    return {
      question: fillText(texts.import.question, {
        name: shownText(patient.fullName),
        day: dayMonthYear(patient.birthDate),
        keyIds: unknownKeys(offer)
          .map(({ keyId }) => keyId)
          .join(', '),
      }),
      lines: verdictLines(offer.verdict, texts),
      mayName: unknownKeys(offer).length === 1,
    }
  }

  /** Lets go of what names a patient. */
  function forget(): void {
    pending = undefined
    set({ importQuestion: undefined, origins: new Map() })
  }

  return { actions, loadOrigin, forget }
}

const unknownKeys = ({ verdict }: LogOffer) =>
  verdict.signers.filter(({ standing }) => standing.kind === 'unknown')
