import { useState, type SyntheticEvent } from 'react'
import { useActions } from '../shared/appContext.tsx'
import { FileButton } from '../shared/FileButton.tsx'
import { Section } from '../shared/Section.tsx'
import { DeviceNameField } from './DeviceNameField.tsx'
import { useClinicTexts } from './useClinicTexts.ts'
import { useIsDrawing } from './useSetup.ts'

/** A desk file is a few thousand characters; what is larger is none and is not read. */
const FILE_MAX_bytes = 100_000

interface FoundFormProps {
  readonly clinic: string
  readonly isBusy: boolean
}

/** Makes this device the clinic's first desk, with the desk file. */
export function FoundForm({ clinic: name, isBusy }: FoundFormProps) {
  const { clinicSetup } = useActions()
  const isDrawing = useIsDrawing()
  const { clinic, fill } = useClinicTexts()
  const { found, drawing } = clinic.setup
  const [typed, setTyped] = useState('')
  const [file, setFile] = useState<{ readonly name: string; readonly text: string }>()
  const take = async (chosen: File): Promise<void> => {
    // What cannot be read is told as no desk file, by whoever reads it.
    const text = chosen.size > FILE_MAX_bytes ? '' : await chosen.text().catch(() => '')
    setFile({ name: chosen.name, text })
  }
  const send = (event: SyntheticEvent): void => {
    event.preventDefault()
    if (file) void clinicSetup.found(file.text, typed)
  }
  return (
    <details className="foundClinic">
      <summary>{found.title}</summary>
      <Section title={found.title} about={found.about}>
        <form className="clinicForm" onSubmit={send}>
          <DeviceNameField value={typed} onChange={setTyped} />
          <FileButton
            label={found.file}
            accept=".json,application/json"
            onFile={(chosen) => void take(chosen)}
          />
          <p role="status">{file && fill(found.chosen, { file: file.name })}</p>
          {isDrawing && <p className="soft">{drawing}</p>}
          <div className="rowOfButtons">
            <button
              type="submit"
              className="button go"
              disabled={isBusy || isDrawing || !file || typed.trim() === ''}
            >
              {fill(found.submit, { clinic: name })}
            </button>
          </div>
        </form>
      </Section>
    </details>
  )
}
