import { useEffect, useRef } from 'react'
import type { ReactNode } from 'react'
import { Lines } from './Lines.tsx'
import { ScreenHeader, type Back } from './ScreenHeader.tsx'
import { VersionLine } from './VersionLine.tsx'

interface FrameProps {
  readonly title: string
  /** Stands right below the head, such as who a record is of. */
  readonly under?: ReactNode
  /** Left out on the first screen. */
  readonly back?: Back
  readonly children: ReactNode
}

/** The page around every screen but the draw itself. What it adds is not printed. */
export function Frame({ title, under, back, children }: FrameProps) {
  const heading = useRef<HTMLHeadingElement>(null)
  useEffect(() => {
    heading.current?.focus()
  }, [])
  return (
    <div className="frame">
      <ScreenHeader title={title} back={back} heading={heading} />
      <main>
        <Lines />
        <VersionLine />
        {under && <div className="noPrint">{under}</div>}
        {children}
      </main>
    </div>
  )
}
