import { useEffect, useRef } from 'react'
import type { ReactNode } from 'react'
import { useActions, useApp } from './appContext.tsx'
import { Mark } from './Mark.tsx'

interface FrameProps {
  readonly title: string
  /** Stands right below the title, such as who a record is of. */
  readonly under?: ReactNode
  /** Where the back button leads; left out on the first screen. */
  readonly back?: { readonly label: string; readonly onBack: () => void }
  readonly children: ReactNode
}

/** The page around every screen but the draw itself. What it adds is not printed. */
export function Frame({ title, under, back, children }: FrameProps) {
  const heading = useRef<HTMLHeadingElement>(null)
  const actions = useActions()
  const trouble = useApp((s) => s.trouble)
  useEffect(() => {
    heading.current?.focus()
  }, [])
  return (
    <div className="frame">
      <header className="noPrint">
        <span className="wordmark">
          <Mark />
          Stillhand
        </span>
        {back && (
          <button type="button" className="button quiet" onClick={back.onBack}>
            {back.label}
          </button>
        )}
      </header>
      <main>
        {trouble !== undefined && (
          <div className="troubleBox noPrint" role="alert">
            <p>{trouble}</p>
            <button type="button" className="button" onClick={() => actions.dismissTrouble()}>
              Understood
            </button>
          </div>
        )}
        <div className="heading noPrint">
          <h1 tabIndex={-1} ref={heading}>
            {title}
          </h1>
          {under}
        </div>
        {children}
      </main>
    </div>
  )
}
