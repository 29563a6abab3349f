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

/** Open at every step. What stops or alarms comes first, and never waits. */
export function SafetyRow({ view, isHeard, isHeld, onChoose }: SafetyRowProps) {
  const { draw } = useTexts().texts
  const ordered = [...view.always].sort(
    (a, b) => Number(b.tone === 'stop') - Number(a.tone === 'stop'),
  )
  return (
    <nav className="safetyRow" aria-label={draw.always}>
      {ordered.map((choice) => (
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
