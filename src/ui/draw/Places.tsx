import { FIXED_PLACES, SHEET_KEY } from '../../app/view/places.ts'
import type { ChoiceView } from '../../app/view/drawViewTypes.ts'
import type { Source } from '../../core/protocol/entry.ts'
import { useTexts } from '../shared/useTexts.ts'
import { ChoiceButton, choiceId } from './ChoiceButton.tsx'

interface PlacesProps {
  readonly choices: readonly ChoiceView[]
  readonly isHeard: (choice: ChoiceView) => boolean
  readonly isHeld: boolean
  readonly onChoose: (choice: ChoiceView, source: Source) => void
  readonly onSheet: () => void
}

/**
 * Six places that keep their meaning in the whole draw: vein, flow, tube, patient, needle, and what else happened. One
 * without its turn stays empty, and nothing moves into it.
 */
export function Places({ choices, isHeard, isHeld, onChoose, onSheet }: PlacesProps) {
  const { texts, fill } = useTexts()
  const { draw } = texts
  return (
    <div className="sixPlaces">
      {FIXED_PLACES.map((place) => {
        const choice = choices.find((each) => each.place === place)
        return (
          <div key={place} className={choice ? 'fixedPlace' : 'fixedPlace isEmpty'}>
            {choice && (
              <ChoiceButton
                key={choiceId(choice)}
                choice={choice}
                isHeard={isHeard(choice)}
                isHeld={isHeld}
                onChoose={onChoose}
              />
            )}
          </div>
        )
      })}
      <div className="fixedPlace">
        <button
          type="button"
          className="choice plain else"
          data-place="more"
          aria-disabled={isHeld || undefined}
          onClick={onSheet}
        >
          <span className="label">{draw.whatElse}</span>
          <kbd>
            <span className="visuallyHidden">{fill(draw.key, { key: SHEET_KEY })}</span>
            <span aria-hidden="true">{SHEET_KEY}</span>
          </kbd>
        </button>
      </div>
    </div>
  )
}
