import type { Source } from '../../core/protocol/entry.ts'
import type { ChoiceView, DrawView } from '../../app/view/drawViewTypes.ts'
import { useTexts } from '../shared/useTexts.ts'
import { ChoiceButton, choiceId } from './ChoiceButton.tsx'

interface SafetyRowProps {
  readonly view: Pick<DrawView, 'always' | 'ask'>
  readonly isHeard?: (choice: ChoiceView) => boolean
  readonly isHeld: boolean
  readonly onChoose: (choice: ChoiceView, source: Source) => void
}

/** What stops or alarms comes first. */
const inOrder = (always: DrawView['always']): DrawView['always'] =>
  [...always].sort((a, b) => Number(b.tone === 'stop') - Number(a.tone === 'stop'))

/** So many a phone has room for at the edge of its sheet, as phone.css has it; the others stand in its list. */
const AT_EDGE_n = 3

/** What is always open and has no room at the edge of a sheet on a phone. */
export const beyondEdge = (always: DrawView['always']): DrawView['always'] =>
  inOrder(always).slice(AT_EDGE_n)

/** Open at every step. What stops or alarms comes first, and never waits. */
export function SafetyRow({ view, isHeard, isHeld, onChoose }: SafetyRowProps) {
  const { draw } = useTexts().texts
  return (
    <nav className="safetyRow" aria-label={draw.always}>
      {inOrder(view.always).map((choice) => (
        <ChoiceButton
          key={choiceId(choice)}
          choice={choice}
          size="safety"
          isHeard={isHeard?.(choice) ?? false}
          isHeld={isHeld && choice.tone !== 'stop'}
          // While a question is open the key answers it.
          noKey={view.ask?.no.key === choice.key && choice.key !== undefined}
          onChoose={onChoose}
        />
      ))}
    </nav>
  )
}
