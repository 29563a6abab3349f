import type { DrawLog } from '../../core/protocol/entry.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { openingOf } from '../../core/record/openingOf.ts'
import { actsByVoice } from '../../core/voice/actsByVoice.ts'
import { afterCheck, afterDraw, type OwnVoice } from '../../core/voice/ownVoice.ts'
import {
  choosing,
  neverAsking,
  resetting,
  resting,
  wordingOffer,
  type WordingOffer,
} from '../../core/voice/rankWordings.ts'
import type { AppParts } from '../appDeps.ts'
import type { PhraseBook } from '../site/phraseBook.ts'
import { collectorIdOf } from '../site/whoDraws.ts'
import type { OwnVoiceActions } from '../view/ownVoiceView.ts'

/** What is learned of the people who draw here, what is offered after a draw, and how it is forgotten. */
export function createOwnVoiceActions(parts: AppParts) {
  const { get, set, guarded, ownVoices, site, today } = parts
  const { told } = site.texts.screens
  const me = (): string | undefined => collectorIdOf(get().settings)
  let shownOf: string | undefined
  let offeredTo: string | undefined
  /** Closed draws that were counted on this page: each closes once, and is told more often. */
  const counted = new Set<string>()

  function show(): void {
    shownOf = me()
    const own = shownOf === undefined ? undefined : ownVoices.of(shownOf)
    set({ ownVoice: { ...get().ownVoice, own, others: ownVoices.othersThan(shownOf) } })
  }

  const showOffer = (offer: (WordingOffer & { readonly drawId: string }) | undefined): void =>
    set({ ownVoice: { ...get().ownVoice, offer } })

  async function change(collectorId: string, by: (voice: OwnVoice) => OwnVoice): Promise<boolean> {
    const done = await guarded(told.voiceUnsaved, () => ownVoices.change(collectorId, today(), by))
    show()
    return done.ok
  }

  async function forgetting(work: () => Promise<void>): Promise<void> {
    await guarded(told.voiceNotForgotten, work)
    showOffer(undefined)
    show()
  }

  const actions: OwnVoiceActions = {
    learn: async (collectorId, found) => {
      await change(collectorId, (voice) => afterCheck(voice, found, today()))
    },
    answerOffer: async (answer) => {
      const { offer } = get().ownVoice
      const person = offeredTo
      showOffer(undefined)
      if (!offer || person === undefined || answer === 'notNow') return
      const { key, to } = offer
      await change(person, (voice) =>
        answer === 'change' ? choosing(voice, key, to) : neverAsking(voice, key),
      )
    },
    resetWording: async (key) => {
      const person = me()
      if (person !== undefined) await change(person, (voice) => resetting(voice, key))
    },
    forgetMine: async () => {
      const person = me()
      if (person !== undefined) await forgetting(() => ownVoices.forget(person))
    },
    forgetAll: () => forgetting(() => ownVoices.forgetAll()),
  }

  return {
    actions,
    /** Reads what is kept; what was damaged is forgotten and told. */
    async load(): Promise<void> {
      const read = await guarded(told.settingsUnread, () => ownVoices.load())
      show()
      if (!read.ok || read.value.length === 0) return
      const { trouble } = get()
      const text = site.texts.site.kept.ownVoices
      set({ trouble: trouble === undefined ? text : `${trouble} ${text}` })
    },
    /** Somebody else may draw now: what was offered to the one before is none of theirs. */
    follow(): void {
      if (me() === shownOf) return
      show()
      showOffer(undefined)
    },
    /** The phrases as they are shown in a draw: in practice the one who draws is invented, and who practices counts. */
    phrasesFor: ({ opened, collector }: Pick<DrawState, 'opened' | 'collector'>): PhraseBook =>
      ownVoices.bookFor(opened.invented ? me() : collector.id),
    /**
     * A draw was closed here: what everybody did in it by voice is counted, and its last person may be offered another
     * wording. Practice counts for nobody, and a draw of another chair was spoken into another microphone.
     */
    async noticeClosed(log: DrawLog): Promise<void> {
      const { drawId, entries } = log
      const { invented, device } = openingOf(log)
      if (invented || device !== get().settings.devicePrefix || counted.has(drawId)) return
      counted.add(drawId)
      const last = entries.findLast(({ source }) => source !== 'clock' && source !== 'app')?.by
      const { phrases } = site.phrases
      for (const [person, acts] of actsByVoice(entries, phrases)) {
        let offer: WordingOffer | undefined
        const isKept = await change(person, (before) => {
          const voice = afterDraw(before, acts, today())
          offer = person === last ? wordingOffer(voice, phrases) : undefined
          return offer ? resting(voice, offer.key) : voice
        })
        if (!isKept || !offer) continue
        offeredTo = person
        showOffer({ ...offer, drawId })
      }
    },
  }
}
