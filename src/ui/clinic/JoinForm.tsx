import { useState, type SyntheticEvent } from 'react'
import { useActions, useApp } from '../shared/appContext.tsx'
import { Section } from '../shared/Section.tsx'
import { TextField } from '../shared/TextField.tsx'
import { DeviceNameField } from './DeviceNameField.tsx'
import { useClinicTexts } from './useClinicTexts.ts'
import { useIsDrawing } from './useSetup.ts'

interface JoinFormProps {
  readonly isBusy: boolean
  readonly joining?: 'asking' | 'waiting' | undefined
  /** It belonged to the clinic before. */
  readonly name?: string
}

/** Joins the clinic by a code that one of its desks shows. */
export function JoinForm({ isBusy, joining, name: known = '' }: JoinFormProps) {
  const { clinicSetup } = useActions()
  const own = useApp((s) => s.keys.own)
  const isDrawing = useIsDrawing()
  const { clinic, fill } = useClinicTexts()
  const { join, drawing } = clinic.setup
  const [code, setCode] = useState('')
  const [name, setName] = useState(known)
  const send = (event: SyntheticEvent): void => {
    event.preventDefault()
    void clinicSetup.join(code, name)
  }
  return (
    <Section title={known === '' ? join.title : join.again} about={join.about}>
      <form className="clinicForm" onSubmit={send}>
        <DeviceNameField value={name} onChange={setName} />
        <TextField
          label={join.code}
          hint={join.codeHint}
          autoCapitalize="characters"
          spellCheck={false}
          maxLength={40}
          value={code}
          onChange={setCode}
        />
        {isDrawing && <p className="soft">{drawing}</p>}
        <div className="rowOfButtons">
          <button
            type="submit"
            className="button go"
            disabled={isBusy || isDrawing || code.trim() === '' || name.trim() === ''}
          >
            {join.submit}
          </button>
          {joining && (
            <button type="button" className="button" onClick={() => clinicSetup.stopJoining()}>
              {join.stop}
            </button>
          )}
        </div>
      </form>
      <p role="status">
        {joining === 'asking' && join.asking}
        {joining === 'waiting' && fill(join.waiting, { key: own?.keyId ?? '' })}
      </p>
    </Section>
  )
}
