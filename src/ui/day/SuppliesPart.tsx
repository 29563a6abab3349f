import { useState } from 'react'
import { useServices } from '../shared/appContext.tsx'
import { SuppliesShown } from './SuppliesShown.tsx'

/** What the list needs in tubes, sets and labels. Planning takes time: nothing is worked out before it is opened. */
export function SuppliesPart() {
  const { supplies } = useServices().site.texts.day
  const [isOpen, setOpen] = useState(false)
  return (
    <details className="supplies" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{supplies.title}</summary>
      {isOpen && <SuppliesShown />}
    </details>
  )
}
