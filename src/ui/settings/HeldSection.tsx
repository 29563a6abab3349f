import { useState, type KeyboardEvent } from 'react'
import { isPedalKey } from '../../core/scan/pedalKey.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { Section } from '../shared/Section.tsx'
import { TextField } from '../shared/TextField.tsx'
import { Tick } from '../shared/Tick.tsx'
import { useDeviceTexts } from '../shared/useDeviceTexts.ts'

/** The key as whoever presses it names it: it is pressed here, not spelled. */
function HeldKey() {
  const kept = useApp((s) => s.settings.heldKey)
  const actions = useActions()
  const { label, hint, error } = useDeviceTexts().held.key
  const [isWrong, setWrong] = useState(false)
  const press = (event: KeyboardEvent): void => {
    if (['Tab', 'Shift', 'Control', 'Alt', 'Meta'].includes(event.key)) return
    event.preventDefault()
    const code = event.code || event.key
    const isNone = code === 'Backspace' || code === 'Delete'
    setWrong(!isNone && !isPedalKey(code))
    if (isNone || isPedalKey(code)) actions.changeSettings({ heldKey: isNone ? '' : code })
  }
  return (
    <TextField
      label={label}
      hint={hint}
      error={isWrong ? error : undefined}
      inputMode="none"
      value={kept}
      onKeyDown={press}
      onChange={() => undefined}
    />
  )
}

/** How the ears are held open in a draw, and whether they must be. */
export function HeldSection() {
  const { heldBar, heldRequired } = useApp((s) => s.settings)
  const actions = useActions()
  const { title, about, bar, required, requiredAbout } = useDeviceTexts().held
  return (
    <Section title={title} about={about}>
      <HeldKey />
      <Tick
        label={bar}
        checked={heldBar}
        onChange={(checked) => actions.changeSettings({ heldBar: checked })}
      />
      <Tick
        label={required}
        checked={heldRequired}
        onChange={(checked) => actions.changeSettings({ heldRequired: checked })}
      />
      <p className="soft">{requiredAbout}</p>
    </Section>
  )
}
