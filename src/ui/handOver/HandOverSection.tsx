import { useActions, useApp } from '../shared/appContext.tsx'
import { Section } from '../shared/Section.tsx'
import { useHandOverTexts } from './useHandOverTexts.ts'

/** In the settings: how handing over stands, and the way to its screen. */
export function HandOverSection() {
  const { state, server = '', before = '', faults } = useApp((s) => s.handOver)
  const actions = useActions()
  const { texts, fill } = useHandOverTexts()
  return (
    <Section title={texts.title} about={texts.about}>
      <p>{fill(texts.states[state], { server, before, faults: faults.join(', ') })}</p>
      <button
        type="button"
        className="button"
        onClick={() => void actions.go({ name: 'handOver' })}
      >
        {texts.open}
      </button>
    </Section>
  )
}
