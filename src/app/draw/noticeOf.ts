import { defined } from '../../core/basics/defined.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { bandIsOn, planned, unmixed } from '../../core/protocol/facts.ts'
import { eventName } from '../../core/record/eventName.ts'
import { minutesSeconds } from '../../core/time/format.ts'
import type { Texts } from '../site/texts.ts'
import type { Prompts, Words } from '../site/words.ts'
import type { Notice } from '../view/drawViewTypes.ts'
import { codedPrompt, shownPrompt } from '../view/promptKeys.ts'
import type { DrawChange } from './drawSession.ts'

export interface NoticeTexts {
  readonly words: Words
  readonly prompts: Prompts
  readonly texts: Pick<Texts, 'draw' | 'note'>
}

/** What to tell after a change: the gravest flag, an exception, a gap; in words, with what to do now. */
export function noticeOf(
  { before, after, entries }: DrawChange,
  { words, prompts, texts }: NoticeTexts,
): Notice | undefined {
  const { notice } = texts.draw
  for (const { event } of entries) {
    if (event.type === 'flagRaised') {
      return warning(words.flags[event.flag], `flag.${event.flag}`, prompts)
    }
    if (event.type === 'exceptionRaised') {
      const { title, instruction } = words.exceptions[event.kind]
      const withBand = event.kind === 'interrupted' && bandIsOn(after)
      const text = withBand ? notice.exceptionBandOn : notice.exception
      return warning(fillText(text, { title, instruction }), `exception.${event.kind}`, prompts)
    }
    if (event.type === 'awayNoticed') {
      const text = event.bandWasOn || bandIsOn(after) ? notice.awayBandOn : notice.away
      const told = fillText(text, { time: minutesSeconds(event.away_ms) })
      return warning(told, 'app.away', prompts)
    }
    if (
      event.type === 'lotRead' &&
      !entries.some((each) => each.event.type === 'exceptionRaised')
    ) {
      const tube = planned(after, event.tubeId)?.name ?? event.tubeId
      return { tone: 'info', text: fillText(notice.lot, { lot: event.lot, tube }) }
    }
    if (event.type === 'identifierChecked' && event.how === 'scan' && event.matches) {
      return { tone: 'info', text: notice.wristband }
    }
    if (event.type === 'tubeMixed' && unmixed(before).length > 1) {
      const name = (id: string): string => planned(after, id)?.name ?? id
      const left = unmixed(after).map(({ id }) => name(id))
      const text = fillText(notice.mixed, { tube: name(event.tubeId), left: left.join(', ') })
      return { tone: 'info', text }
    }
    if (event.type === 'accessionTaken') {
      const tube = planned(after, event.tubeId)?.name ?? event.tubeId
      const text = fillText(notice.accession, { number: event.accession, tube })
      return { tone: 'info', text }
    }
    if (event.type === 'entryUndone') {
      const undone = before.kept.find(({ seq }) => seq === event.seq)
      const what = undone ? eventName(undone.event, texts.note) : ''
      return { tone: 'info', text: fillText(notice.takenBack, { seq: event.seq, what }) }
    }
  }
  return undefined
}

/** A warning with the few words that are spoken for it; a remark for the record has none. */
function warning(text: string, key: string, prompts: Prompts): Notice {
  const large = shownPrompt(key, prompts)
  const coded = codedPrompt(key, prompts)
  return defined({ tone: 'warn' as const, text, large: large === '' ? undefined : large, coded })
}
