import { fillText, type TextValues } from '../../core/basics/fillText.ts'
import type { OrderTexts, QuestionId, RefusalId } from '../site/orderTexts.ts'

/** What was found in an order file: why it cannot be taken, and what somebody must confirm first. */
export interface Findings {
  refuse(id: RefusalId, values?: TextValues): void
  ask(id: QuestionId, values?: TextValues): void
  /** Sentences, in the order of the file; beyond the first fifty only how many more there are. */
  refusals(): readonly string[]
  /** Sentences that end in a question, each once. */
  questions(): readonly string[]
}

/** More than anybody reads, and few enough to be shown at once. */
const MOST_SHOWN = 50

export function createFindings(texts: OrderTexts): Findings {
  const refused: string[] = []
  const asked = new Set<string>()
  return {
    refuse: (id, values) => void refused.push(fillText(texts.refusals[id], values)),
    ask: (id, values) => void asked.add(fillText(texts.questions[id], values)),
    refusals: () => {
      const n = refused.length - MOST_SHOWN
      if (n <= 0) return refused
      return [...refused.slice(0, MOST_SHOWN), fillText(texts.refusals.more, { n })]
    },
    questions: () => [...asked],
  }
}
