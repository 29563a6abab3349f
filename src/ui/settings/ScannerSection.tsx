import { useState } from 'react'
import { isScanMark } from '../../core/scan/judgeBurst.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { TextField } from '../shared/TextField.tsx'
import { Section } from '../shared/Section.tsx'
import { useDeviceTexts } from '../shared/useDeviceTexts.ts'

interface MarkFieldProps {
  readonly name: 'scanPrefix' | 'scanSuffix'
  readonly label: string
  readonly hint: string
}

/** A sign of the scanner, kept only once it can be told from codes and choices. */
function MarkField({ name, label, hint }: MarkFieldProps) {
  const kept = useApp((s) => s.settings[name])
  const actions = useActions()
  const { error } = useDeviceTexts().scanner
  const [typed, setTyped] = useState(kept)
  return (
    <TextField
      label={label}
      hint={hint}
      error={isScanMark(typed) ? undefined : error}
      maxLength={4}
      value={typed}
      onChange={(mark) => {
        setTyped(mark)
        if (isScanMark(mark)) actions.changeSettings({ [name]: mark })
      }}
    />
  )
}

/** How the label scanner of this device marks its codes. */
export function ScannerSection() {
  const { title, about, prefix, suffix } = useDeviceTexts().scanner
  return (
    <Section title={title} about={about}>
      <div className="pair">
        <MarkField name="scanPrefix" {...prefix} />
        <MarkField name="scanSuffix" {...suffix} />
      </div>
    </Section>
  )
}
