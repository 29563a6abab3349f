import type { ReactNode } from 'react'
import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { useActions, useApp } from './appContext.tsx'
import { ErrorBoundary } from './ErrorBoundary.tsx'
import { Lines } from './Lines.tsx'
import { ScreenHeader } from './ScreenHeader.tsx'
import { useTexts } from './useTexts.ts'

interface BrokenScreenProps {
  readonly why: string
  readonly onRetry: () => void
}

/**
 * In place of a screen that cannot be drawn. The draw goes on behind it with its clocks, alarms and ears, so what
 * matters of it is shown here, each part by itself since any may be what broke, and the ways back.
 */
export function BrokenScreen({ why, onRetry }: BrokenScreenProps) {
  const actions = useActions()
  const screen = useApp((s) => s.screen)
  const view = useApp((s) => s.draw)
  const { app, broken } = useTexts().texts
  const running = view && !view.closed ? view : undefined
  return (
    <div className="frame">
      <ScreenHeader title={broken.title} />
      <main className="brokenScreen">
        <Part>
          <Lines />
        </Part>
        <p>{broken.about}</p>
        {running && (
          <>
            <Part>
              <Patient view={running} />
            </Part>
            <Part>
              <Severe view={running} />
            </Part>
            <Part>
              <Clocks view={running} />
            </Part>
          </>
        )}
        <div className="rowOfButtons">
          <button type="button" className="button go" onClick={onRetry}>
            {broken.retry}
          </button>
          {running && screen.name !== 'draw' && (
            <button
              type="button"
              className="button"
              onClick={() => void actions.go({ name: 'draw', drawId: running.drawId })}
            >
              {broken.toDraw}
            </button>
          )}
          <button
            type="button"
            className="button"
            onClick={() => void actions.go({ name: 'home' })}
          >
            {app.backTo.start}
          </button>
        </div>
        <p className="small soft">{why}</p>
      </main>
    </div>
  )
}

function Part({ children }: { readonly children: ReactNode }) {
  return <ErrorBoundary instead={() => null}>{children}</ErrorBoundary>
}

interface ViewProps {
  readonly view: DrawView
}

function Patient({ view }: ViewProps) {
  return <p>{view.patientLine}</p>
}

function Severe({ view }: ViewProps) {
  if (!view.severe) return null
  return (
    <p className="stopBox" role="alert">
      <strong>{view.severe.title}</strong> {view.severe.instruction}
    </p>
  )
}

function Clocks({ view }: ViewProps) {
  const { broken } = useTexts().texts
  const clocks = [...(view.mainClock ? [view.mainClock] : []), ...view.otherClocks]
  return (
    <ul className="bare" aria-label={broken.clocks}>
      {clocks.map(({ id, label, text, says, state }) => (
        <li key={id} className={`runningClock ${state}`} data-clock={id}>
          {label} <strong className="figures">{text}</strong> {says}
        </li>
      ))}
    </ul>
  )
}
