import { useEffect, useRef } from 'react'
import type { ReactNode } from 'react'
import { Lines } from './Lines.tsx'
import { Mark } from './Mark.tsx'
import { useTexts } from './useTexts.ts'
import { VersionLine } from './VersionLine.tsx'

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
  const { app } = useTexts().texts
  useEffect(() => {
    heading.current?.focus()
  }, [])
  return (
    <div className="frame">
      <header className="noPrint">
        <span className="wordmark">
          <Mark />
          {app.name}
        </span>
        {back && (
          <button type="button" className="button quiet" onClick={back.onBack}>
            {back.label}
          </button>
        )}
      </header>
      <main>
        <Lines />
        <VersionLine />
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
