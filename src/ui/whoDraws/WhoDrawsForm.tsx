import { useState, type SyntheticEvent } from 'react'
import { initialsOf } from '../../app/site/whoDraws.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { TextField } from '../shared/TextField.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface WhoDrawsFormProps {
  /** Begins with what was said before, to be corrected; else with nothing but the site. */
  readonly correct?: boolean
  readonly onSaid?: () => void
}

/** Who draws, for the note and the labels. */
export function WhoDrawsForm({ correct = false, onSaid }: WhoDrawsFormProps) {
  const { collectorName, collectorInitials, siteName } = useApp((s) => s.settings)
  const actions = useActions()
  const { whoDraws } = useTexts().texts
  const [name, setName] = useState(correct ? collectorName : '')
  const [initials, setInitials] = useState<string | undefined>(
    correct ? collectorInitials : undefined,
  )
  const [site, setSite] = useState(siteName)
  const [fault, setFault] = useState<string>()
  const shownInitials = initials ?? initialsOf(name)
  const submit = (event: SyntheticEvent): void => {
    event.preventDefault()
    const wrong = actions.sayWhoDraws({ name, initials: shownInitials, siteName: site })
    setFault(wrong)
    if (wrong === undefined) onSaid?.()
  }
  return (
    <form className="whoDrawsForm" noValidate onSubmit={submit}>
      <TextField
        label={whoDraws.name}
        error={fault}
        required
        value={name}
        onChange={(typed) => {
          setName(typed)
          setFault(undefined)
        }}
      />
      <TextField
        label={whoDraws.initials}
        hint={whoDraws.initialsHint}
        required
        maxLength={6}
        value={shownInitials}
        onChange={setInitials}
      />
      <TextField label={whoDraws.site} hint={whoDraws.siteHint} value={site} onChange={setSite} />
      <button type="submit" className="button go">
        {whoDraws.keep}
      </button>
    </form>
  )
}
