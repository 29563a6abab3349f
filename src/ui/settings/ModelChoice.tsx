import { useState } from 'react'
import { isModelFile, SPEECH_MODELS } from '../../app/site/speechModels.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { SelectField } from '../shared/SelectField.tsx'
import { TextField } from '../shared/TextField.tsx'
import { useTexts } from '../shared/useTexts.ts'

type Choice = 'shipped' | 'before' | 'own'

const CHOICES: readonly Choice[] = ['shipped', 'before', 'own']
const [, BEFORE] = SPEECH_MODELS

function choiceFor(speechModel: string): Choice {
  if (speechModel === '') return 'shipped'
  return speechModel === BEFORE ? 'before' : 'own'
}

/** Which speech model listens: the app's own, the one before, or a file that the site put beside them. */
export function ModelChoice() {
  const speechModel = useApp((s) => s.settings.speechModel)
  const actions = useActions()
  const { settings } = useTexts().texts
  const [choice, setChoice] = useState(() => choiceFor(speechModel))
  // What is half typed is kept here: a name that is none must never be loaded.
  const [typed, setTyped] = useState(choice === 'own' ? speechModel : '')

  const choose = (next: Choice): void => {
    setChoice(next)
    if (next === 'shipped') actions.changeSettings({ speechModel: '' })
    if (next === 'before') actions.changeSettings({ speechModel: BEFORE })
    if (next === 'own' && isModelFile(typed)) actions.changeSettings({ speechModel: typed })
  }
  const type = (text: string): void => {
    setTyped(text)
    if (isModelFile(text.trim())) actions.changeSettings({ speechModel: text.trim() })
  }
  return (
    <>
      <SelectField
        label={settings.speechModel}
        hint={settings.speechModelHint}
        options={CHOICES}
        nameOf={(each) => settings.speechModels[each]}
        value={choice}
        onChange={choose}
      />
      {choice === 'own' && (
        <TextField
          label={settings.modelFile}
          hint={settings.modelFileHint}
          error={typed !== '' && !isModelFile(typed.trim()) ? settings.modelFileFault : undefined}
          value={typed}
          onChange={type}
        />
      )}
    </>
  )
}
