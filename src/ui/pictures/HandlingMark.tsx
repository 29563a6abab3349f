import type { ReactNode } from 'react'
import type { Handling } from '../../core/catalogue/handling.ts'

/** A small drawing for how a tube must be treated. The words stand beside it, always. */
export function HandlingMark({ mark }: { readonly mark: Handling }) {
  return (
    <svg className="handlingMark" viewBox="0 0 20 20" aria-hidden="true">
      {DRAWN[mark]}
    </svg>
  )
}

const star = <path d="M10 2v16M3 6l14 8M17 6L3 14" />
const sun = (
  <>
    <circle cx="10" cy="10" r="3.5" />
    <path d="M10 1.5v3M10 15.5v3M1.5 10h3M15.5 10h3M4 4l2 2M14 14l2 2M16 4l-2 2M6 14l-2 2" />
  </>
)

const DRAWN: Readonly<Record<Handling, ReactNode>> = {
  ice: star,
  coolOptional: (
    <>
      {star}
      <path d="M1 19h18" strokeDasharray="2 2" />
    </>
  ),
  light: (
    <>
      {sun}
      <path d="M2 18L18 2" className="bold" />
    </>
  ),
  warm: <path d="M5 18c4-4-2-5 1-9M11 18c4-4-2-5 1-9M5 5c1-1 1-2 0-3M12 5c1-1 1-2 0-3" />,
  upright: <path d="M10 18V3M5 8l5-5 5 5M3 18h14" />,
  roomOnly: (
    <>
      {star}
      <path d="M2 18L18 2" className="bold" />
    </>
  ),
  traceFree: <path d="M3 17V5l7-3 7 3v12zM7 10h6M7 13h6" />,
  noAir: (
    <>
      <circle cx="8" cy="12" r="5" />
      <circle cx="15" cy="5" r="2.5" />
      <path d="M2 18L18 2" className="bold" />
    </>
  ),
  noAlcohol: (
    <>
      <path d="M10 2c5 6 6 8 6 11a6 6 0 0 1-12 0c0-3 1-5 6-11z" />
      <path d="M2 18L18 2" className="bold" />
    </>
  ),
  dryFlat: <path d="M2 17h16M4 13h12M7 3c-1 2 1 3 0 6M13 3c-1 2 1 3 0 6" />,
}
