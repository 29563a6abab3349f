import type { Source } from '../../core/protocol/entry.ts'
import type { ChoiceView } from '../../app/view/drawViewTypes.ts'
import { useTexts } from '../shared/useTexts.ts'
import { ChoiceButton, choiceId } from './ChoiceButton.tsx'

interface SafetyRowProps {
  readonly always: readonly ChoiceView[]
  readonly onChoose: (choice: ChoiceView, source: Source) => void
}

/** Open at every step. What stops or alarms comes first. */
export function SafetyRow({ always, onChoose }: SafetyRowProps) {
  const { draw } = useTexts().texts
  const ordered = [...always].sort((a, b) => Number(b.tone === 'stop') - Number(a.tone === 'stop'))
  return (
    <nav className="safetyRow" aria-label={draw.always}>
      {ordered.map((choice) => (
        <ChoiceButton key={choiceId(choice)} choice={choice} size="safety" onChoose={onChoose} />
      ))}
    </nav>
  )
}
