import type { PointerEvent } from 'react'
import type { HeldMove } from '../../core/voice/heldEars.ts'
import { useTexts } from '../shared/useTexts.ts'
import './earsBar.css'

interface EarsBarProps {
  readonly isOpen: boolean
  readonly isRequired: boolean
  readonly onMove: (move: HeldMove) => void
}

/**
 * Holds the ears open while it is held, and for a moment when it is tapped: as wide as the screen, for an elbow. It
 * confirms nothing, so it never waits.
 */
export function EarsBar({ isOpen, isRequired, onMove }: EarsBarProps) {
  const { held } = useTexts().texts.draw
  const press = (event: PointerEvent<HTMLButtonElement>): void => {
    if (event.button !== 0) return
    // What slides off the bar still comes up on it.
    event.currentTarget.setPointerCapture(event.pointerId)
    onMove('press')
  }
  const closed = isRequired ? held.required : held.hold
  return (
    <button
      type="button"
      className={`earsBar ${isOpen ? 'isOpen' : 'isShut'}`}
      aria-pressed={isOpen}
      onPointerDown={press}
      onPointerUp={(event) => {
        onMove('release')
        // A button that was pressed would keep the next Space for itself.
        event.currentTarget.blur()
      }}
      onPointerCancel={() => onMove('lose')}
      onContextMenu={(event) => event.preventDefault()}
      onClick={({ detail, currentTarget }) => {
        // Pressed by key or by what reads the screen aloud: there is no pointer that could hold it.
        if (detail !== 0) return
        onMove('press')
        onMove('release')
        currentTarget.blur()
      }}
    >
      <EarShape isOpen={isOpen} />
      <span>
        <strong>{isOpen ? held.open : closed}</strong>
        <span className="soft">{isOpen ? held.openAbout : held.about}</span>
      </span>
    </button>
  )
}

/** An empty ring, or a full one with sound coming in. */
export function EarShape({ isOpen }: { readonly isOpen: boolean }) {
  return (
    <svg className="earShape" viewBox="0 0 48 32" aria-hidden="true">
      <circle cx="16" cy="16" r="11" className={isOpen ? 'full' : 'empty'} />
      {isOpen && <path d="M32 7a13 13 0 0 1 0 18M38 3a19 19 0 0 1 0 26" />}
    </svg>
  )
}
