import { defined } from '../../core/basics/defined.ts'
import { commandsWhere } from '../../core/protocol/commandTable.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import { replay } from '../../core/protocol/evolve.ts'
import { isClosed } from '../../core/protocol/isClosed.ts'
import { openCommands } from '../../core/protocol/openCommands.ts'
import { doseAsked } from './doseAsked.ts'
import { choiceView, type ChoiceWords } from './choiceViews.ts'
import { unlabelledIsOpen } from '../../core/protocol/facts.ts'
import { labelViews } from './drawView.ts'
import type { ChoiceView, LabelView } from './drawViewTypes.ts'

/** What may still be recorded of a closed draw, each a deliberate act by touch. */
export interface LaterActs {
  /** The specimens' way: what is to be done next comes first. */
  readonly way: readonly ChoiceView[]
  /** Trouble that came, or was told, after the close. */
  readonly trouble: readonly ChoiceView[]
  /** The tubes, of which one was found without a label and nobody has said what becomes of it. */
  readonly unlabelled: readonly LabelView[]
  /** Series with a sample before a dose of which nobody told when it is due. */
  readonly doseAsked?: string
}

const NONE: LaterActs = { way: [], trouble: [], unlabelled: [] }
const AFTER_CLOSE = commandsWhere(({ afterClose }) => afterClose === true)

export function laterActs(log: DrawLog, words: ChoiceWords): LaterActs {
  if (!isClosed(log)) return NONE
  const state = replay(log.entries)
  const open = openCommands(state, state.last.at)
  const way = [...(open.main ? [open.main] : []), ...open.step]
  const others = new Set<string>([...open.always, ...open.happened])
  const trouble = AFTER_CLOSE.filter((key) => others.has(key))
  return defined({
    way: way.map((key) => choiceView(key, words, {})),
    trouble: trouble.map((key) => choiceView(key, words, {})),
    unlabelled: unlabelledIsOpen(state) ? labelViews(state) : [],
    doseAsked: doseAsked(state),
  })
}
