import type { ReactNode } from 'react'
import './section.css'

interface SectionProps {
  readonly title: string
  readonly about: string
  readonly children: ReactNode
}

/** A part of a long form: its name at the side, one sentence why it is asked. */
export function Section({ title, about, children }: SectionProps) {
  return (
    <fieldset className="formSection">
      <legend>{title}</legend>
      <p className="about soft">{about}</p>
      <div className="body">{children}</div>
    </fieldset>
  )
}
