import './controls.css'

interface TickProps {
  readonly id?: string
  readonly label: string
  readonly checked: boolean
  readonly onChange: (checked: boolean) => void
}

/** A box to tick, with its words beside it. */
export function Tick({ id, label, checked, onChange }: TickProps) {
  return (
    <label className="tick">
      <input
        id={id}
        type="checkbox"
        checked={checked}
        onChange={(event) => onChange(event.target.checked)}
      />
      {label}
    </label>
  )
}
