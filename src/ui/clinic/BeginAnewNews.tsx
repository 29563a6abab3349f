import type { ReactNode } from 'react'
import { useActions } from '../shared/appContext.tsx'
import { useIsDrawing } from './useSetup.ts'
import './clinic.css'

interface BeginAnewNewsProps {
  /** What is new. */
  readonly children: ReactNode
  /** What is said while a draw runs in this page: it has to be closed first. */
  readonly drawing?: string
  readonly button: string
}

/** Something of the clinic counts from the next start of this page on: it begins anew by a press, never in a draw. */
export function BeginAnewNews({ children, drawing, button }: BeginAnewNewsProps) {
  const { clinicSetup } = useActions()
  const isDrawing = useIsDrawing()
  return (
    <div className="clinicNews" role="status">
      {children}
      {isDrawing && drawing !== undefined && <p className="soft">{drawing}</p>}
      <button
        type="button"
        className="button go"
        disabled={isDrawing}
        onClick={() => clinicSetup.beginAnew()}
      >
        {button}
      </button>
    </div>
  )
}
