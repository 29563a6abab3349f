import { FIXED_PLACES, SHEET_KEY } from '../../app/view/places.ts'
import type { ChoiceView } from '../../app/view/drawViewTypes.ts'
import { useTexts } from '../shared/useTexts.ts'
import { choiceButtons, type ChoiceHandling } from './ChoiceButton.tsx'

interface PlacesProps extends ChoiceHandling {
  readonly choices: readonly ChoiceView[]
  readonly onSheet: () => void
}

/**
 * Six places that keep their meaning in the whole draw: vein, flow, tube, patient, needle, and what else happened. One
 * without its turn stays empty, and nothing moves into it.
 */
export function Places({ choices, onSheet, ...handling }: PlacesProps) {
  const { texts, fill } = useTexts()
  const { draw } = texts
  const button = choiceButtons(handling)
  return (
    <div className="sixPlaces">
      {FIXED_PLACES.map((place) => {
        const choice = choices.find((each) => each.place === place)
        return (
          <div key={place} className={choice ? 'fixedPlace' : 'fixedPlace isEmpty'}>
            {choice && button(choice)}
          </div>
        )
      })}
      <div className="fixedPlace">
        <button
          type="button"
          className="choice plain else"
          data-place="more"
          aria-disabled={handling.isHeld || undefined}
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
