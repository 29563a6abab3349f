import type { Ref } from 'react'
import type { ScreenTexts } from '../../app/site/screenTexts.ts'
import { Mark } from './Mark.tsx'
import { useBackKey } from './useBackKey.ts'
import { useTexts } from './useTexts.ts'
import './screenHeader.css'

/** Where the back button leads. */
export interface Back {
  readonly to: keyof ScreenTexts['app']['backTo']
  readonly onBack: () => void
}

interface ScreenHeaderProps {
  /** The name of the screen. */
  readonly title: string
  /** Left out on the first screen, and where nothing may be gone back from. */
  readonly back?: Back | undefined
  readonly heading?: Ref<HTMLHeadingElement>
}

/** The head of every screen but the draw itself: mark, name, and the way back, each always at its one place. */
export function ScreenHeader({ title, back, heading }: ScreenHeaderProps) {
  const { app } = useTexts().texts
  useBackKey(back?.onBack)
  return (
    <header className="screenHeader noPrint" data-part="screenHeader">
      <Mark />
      <h1 tabIndex={-1} ref={heading}>
        {title}
      </h1>
      {back && (
        <button
          type="button"
          className="button backButton"
          aria-keyshortcuts="Escape"
          onClick={back.onBack}
        >
          <span aria-hidden="true">{app.back}</span>
          <span className="visuallyHidden">{app.backTo[back.to]}</span>
          <kbd aria-hidden="true">{app.backKey}</kbd>
        </button>
      )}
    </header>
  )
}
