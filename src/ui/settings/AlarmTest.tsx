import { useState } from 'react'
import { useActions } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'

/** Sounds the alarm, so that a person hears before a draw whether they will hear it in one. */
export function AlarmTest() {
  const actions = useActions()
  const { settings } = useTexts().texts
  const [outcome, setOutcome] = useState('')
  async function test(): Promise<void> {
    setOutcome('')
    setOutcome(await actions.testAlarm())
  }
  return (
    <div>
      <button type="button" className="button" onClick={() => void test()}>
        {settings.testAlarm}
      </button>
      <p role="status">{outcome}</p>
    </div>
  )
}
