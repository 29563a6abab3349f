import type { ClockView } from '../../app/view/drawViewTypes.ts'
import { useTexts } from '../shared/useTexts.ts'
import { ClockScale } from './ClockScale.tsx'
import './clocks.css'

/** The clock that matters now. Its figures come ready from the view; its state stands in words below them. */
export function BigClock({ clock }: { readonly clock: ClockView }) {
  return (
    <section className={`bigClock ${clock.state}`} aria-label={clock.label} data-clock={clock.id}>
      <p className="name">{clock.label}</p>
      <p
        className={`time figures long${Math.max(4, clock.text.length)}`}
        role="timer"
        aria-live="off"
      >
        {clock.text}
      </p>
      <ClockScale clock={clock} />
      <p className="says">{clock.says}</p>
    </section>
  )
}

export function SmallClocks({ clocks }: { readonly clocks: readonly ClockView[] }) {
  const { draw } = useTexts().texts
  if (clocks.length === 0) return null
  return (
    <ul className="bare smallClocks" aria-label={draw.otherClocks}>
      {clocks.map((clock) => (
        <li key={clock.id} className={clock.state} data-clock={clock.id}>
          <span className="name">{clock.label}</span>
          <span className="time figures">{clock.text}</span>
          <span className="says">{clock.says}</span>
        </li>
      ))}
    </ul>
  )
}
