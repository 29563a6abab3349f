import { TextField } from '../shared/TextField.tsx'
import { useClinicTexts } from './useClinicTexts.ts'

interface DeviceNameFieldProps {
  readonly value: string
  readonly onChange: (value: string) => void
}

/** What people of the clinic are to call this device. */
export function DeviceNameField({ value, onChange }: DeviceNameFieldProps) {
  const { name, nameHint } = useClinicTexts().clinic.setup.join
  return <TextField label={name} hint={nameHint} maxLength={60} value={value} onChange={onChange} />
}
