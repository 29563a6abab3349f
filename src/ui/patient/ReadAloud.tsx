import { useEffect, useState } from 'react'
import type { Language } from '../../core/basics/language.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { usePatientTexts } from './usePatientTexts.ts'
import './patient.css'

interface ReadAloudProps {
  readonly title: string
  readonly lines: readonly string[]
  readonly language: Language
}

/** Sentences for the patient, to be shown, and read by the browser's voice of that language where it has one. */
export function ReadAloud({ title, lines, language }: ReadAloudProps) {
  const reader = useServices().readers[language]
  const silent = useApp((s) => s.settings.silent)
  const volume = useApp((s) => s.settings.volume)
  const { namesHere, patient } = usePatientTexts()
  const [reading, setReading] = useState(false)
  useEffect(() => reader.onReading(setReading), [reader])
  useEffect(() => () => reader.stop(), [reader])
  const read = (): void => {
    reader.stop()
    reader.setVolume?.(volume)
    // Sentence by sentence: browsers break off long texts.
    lines.forEach((line) => reader.read(line))
  }
  return (
    <section className="readAloud">
      <h3>{title}</h3>
      {reader.isThere() && !silent ? (
        <button
          type="button"
          className="choice plain"
          onClick={reading ? () => reader.stop() : read}
        >
          <span className="label">{reading ? patient.stop : patient.read}</span>
        </button>
      ) : (
        <p className="soft">{fillText(patient.noVoice, { language: namesHere[language] })}</p>
      )}
      <ul lang={language}>
        {lines.map((line, i) => (
          <li key={i}>{line}</li>
        ))}
      </ul>
    </section>
  )
}
