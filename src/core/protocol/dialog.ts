import { defined } from '../basics/defined.ts'
import type { Command } from './commands.ts'
import type { Decision } from './decision.ts'
import type { Source } from './entry.ts'
import type { Ask } from './asks.ts'

/** A command and the way it came in. */
export interface Given {
  readonly command: Command
  readonly source: Source
}

/** A question that waits for its answer, and the command that raised it. */
export interface Question extends Given {
  readonly ask: Ask
  /** What no means, where it means more than leaving it. */
  readonly otherwise?: Command
}

/** The question that a decision leaves open. */
export function questionOf(decision: Decision, { command, source }: Given): Question | undefined {
  if (decision.kind !== 'ask') return undefined
  const { ask, otherwise } = decision
  return defined({ ask, otherwise, command, source })
}

/**
 * What is to be carried out of a command; `undefined` for nothing. While a question is open only yes does what was
 * asked. Anything else leaves that undone and, unless it just turned the question down, is done in its own right.
 * In any case the question is closed.
 */
export function carriedOut(
  question: Question | undefined,
  given: Given,
): (Given & { readonly confirmed: boolean }) | undefined {
  const { command, source } = given
  if (!question) return { command, source, confirmed: false }
  if (command.type === 'confirmYes') {
    return { command: question.command, source: question.source, confirmed: true }
  }
  if (command.type === 'confirmNo' && question.otherwise) {
    return { command: question.otherwise, source: question.source, confirmed: true }
  }
  if (command.type === 'confirmNo' || command.type === 'goBack') return undefined
  return { command, source, confirmed: false }
}
