import { useState } from 'react'
import { SETTING_RANGES, type Settings } from '../../app/site/settings.ts'
import { rcf, ROTOR_ANGLES } from '../../core/bench/rcf.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { Section } from '../shared/Section.tsx'
import { SelectField } from '../shared/SelectField.tsx'
import { TextField } from '../shared/TextField.tsx'
import { useTexts } from '../shared/useTexts.ts'

type Figure = 'rotorPlaces' | 'rotorRadius_mm' | 'rotorMost_rpm'

/** The rotor of the centrifuge here, with the force that its fastest turn gives. */
export function RotorSection() {
  const settings = useApp((s) => s.settings)
  const actions = useActions()
  const { fill } = useTexts()
  const { settings: t, angles } = useServices().site.texts.bench
  const rpm = settings.rotorMost_rpm
  const g = Math.round(rcf(settings.rotorRadius_mm, rpm))
  return (
    <Section title={t.title} about={t.about}>
      <FigureField name="rotorPlaces" label={t.places} />
      <FigureField name="rotorRadius_mm" label={t.radius} hint={t.radiusHint} />
      <FigureField name="rotorMost_rpm" label={t.most} />
      <SelectField
        label={t.angle}
        options={ROTOR_ANGLES}
        nameOf={(angle) => angles[angle]}
        value={settings.rotorAngle}
        onChange={(angle: Settings['rotorAngle']) => actions.changeSettings({ rotorAngle: angle })}
      />
      <p className="soft figures">{fill(t.converts, { rpm, g })}</p>
    </Section>
  )
}

interface FigureFieldProps {
  readonly name: Figure
  readonly label: string
  readonly hint?: string
}

/** Kept as soon as it is a whole number that can be. */
function FigureField({ name, label, hint }: FigureFieldProps) {
  const value = useApp((s) => s.settings[name])
  const actions = useActions()
  const [typed, setTyped] = useState(String(value))
  const [least, most] = SETTING_RANGES[name]
  const read = (text: string): number | undefined => {
    const figure = /^\d{1,6}$/.test(text.trim()) ? Number(text) : NaN
    return figure >= least && figure <= most ? figure : undefined
  }
  return (
    <TextField
      label={label}
      hint={hint}
      inputMode="numeric"
      error={read(typed) === undefined ? `${least} – ${most}` : undefined}
      value={typed}
      onChange={(text) => {
        setTyped(text)
        const figure = read(text)
        if (figure !== undefined) actions.changeSettings({ [name]: figure })
      }}
    />
  )
}
