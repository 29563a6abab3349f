import type { SelectHTMLAttributes } from 'react'
import './controls.css'

/** A list of few answers, opened in place; its look is ours, what it opens is the device's own. */
export function Select(props: Omit<SelectHTMLAttributes<HTMLSelectElement>, 'className'>) {
  return (
    <span className="selectBox">
      <select {...props} className="input" />
    </span>
  )
}
