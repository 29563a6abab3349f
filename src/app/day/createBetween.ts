import { defined } from '../../core/basics/defined.ts'
import type { AppState } from '../appApi.ts'
import type { AppParts } from '../appDeps.ts'
import type { BenchActions } from '../view/benchViewTypes.ts'
import type { CourierActions } from '../view/courierView.ts'
import type { DayActions } from '../view/dayViewTypes.ts'
import { createBetweenActs } from './betweenActs.ts'
import { betweenPhrases } from './betweenPhrases.ts'
import { isQuiet, mayRead } from '../voice/earTrouble.ts'
import { createBetweenVoice } from './betweenVoice.ts'
import { mayBeCalled, nextReadOf } from './nextRead.ts'

/** Screens between patients: elsewhere somebody types, reads a record, or draws. */
const BETWEEN: ReadonlySet<string> = new Set(['home', 'bench', 'courier'])

interface BetweenDeps {
  readonly parts: AppParts
  readonly day: Pick<DayActions, 'callNext'>
  readonly bench: Pick<BenchActions, 'byVoice'>
  readonly courier: Pick<CourierActions, 'packSaid'>
  /** A draw is written here: its own ears come first, and its patient is in the room. */
  readonly isDrawing: () => boolean
}

/** The ears between patients, open while the screen is one of theirs, somebody wants it, and nobody is being drawn. */
export interface Between {
  /** Something changed by which they may have to open or close. */
  reconsider(state: AppState): void
}

export function createBetween({ parts, day, bench, courier, isDrawing }: BetweenDeps): Between {
  const { get, set, site } = parts
  const plain = betweenPhrases(site.betweenPhrases, false)
  const counting = betweenPhrases(site.betweenPhrases, true)
  const voice = createBetweenVoice({
    ...parts,
    makeSpeech: () => parts.makeSpeech(get().settings),
    texts: site.texts.voice,
    prompts: site.prompts,
    isQuiet: () => isQuiet(get().settings, parts.earpiece.state()),
    acts: createBetweenActs({
      callNext: async () => {
        const row = await day.callNext('voice')
        return row && nextReadOf(row)
      },
      list: () => {
        const rows = get().day.rows.filter(mayBeCalled)
        const [next] = rows
        return defined({ waiting: rows.length, next: next && nextReadOf(next) })
      },
      benchAct: (act) => bench.byVoice(act),
      takeBackLast: async () => {
        if (courier.packSaid('takeBack') !== undefined) return true
        const told = await bench.byVoice('takeBack')
        return typeof told !== 'string' && told.done > 0
      },
      pack: (said) => courier.packSaid(said),
      benchDue: () => get().bench.rows.filter(({ isDue }) => isDue).length,
      mayReadNames: () =>
        get().settings.speakNames && mayRead(get().settings) && parts.reader.isThere(),
    }),
    onView: (between) => set({ between }),
  })
  return {
    reconsider({ screen, settings, lock }) {
      const isWanted = settings.voiceOn && settings.listenBetween
      const mayListen = lock.state !== 'locked' && BETWEEN.has(screen.name) && !isDrawing()
      const phrases = screen.name === 'courier' ? counting : plain
      voice.listen(isWanted && mayListen ? phrases : undefined)
    },
  }
}
