import { useActions, useApp } from '../shared/appContext.tsx'
import { Section } from '../shared/Section.tsx'
import { useClinicTexts } from './useClinicTexts.ts'

/** The way to the clinic's screen; nothing where no hub is set up. */
export function ClinicSection() {
  const isThere = useApp((s) => s.clinicSetup !== undefined)
  const actions = useActions()
  const { setup } = useClinicTexts().clinic
  if (!isThere) return null
  return (
    <Section title={setup.title} about={setup.about}>
      <div className="rowOfButtons">
        <button
          type="button"
          className="button"
          onClick={() => void actions.go({ name: 'clinic' })}
        >
          {setup.open}
        </button>
      </div>
    </Section>
  )
}
