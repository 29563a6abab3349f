import { TextField } from '../shared/TextField.tsx'
import { useState, type SyntheticEvent } from 'react'
import { fillText } from '../../core/basics/fillText.ts'
import { dayMonthYear } from '../../core/time/format.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import './knownKeys.css'

/** The keys that the site knows, this device's own first; each can be named and forgotten. */
export function KnownKeys() {
  const { own, trusted } = useApp((s) => s.keys)
  const actions = useActions()
  const { keys: texts } = useServices().site.texts.log
  return (
    <div className="knownKeys">
      {own && (
        <>
          <p>
            {texts.own}: <strong className="figures">{own.keyId}</strong>
          </p>
          <details>
            <summary>{texts.ownKey}</summary>
            <p className="wholeKey">{own.publicKey}</p>
          </details>
        </>
      )}
      {trusted.length === 0 ? (
        <p className="soft">{texts.none}</p>
      ) : (
        <ul className="bare">
          {trusted.map(({ publicKey, keyId, name, since }) => (
            <li key={publicKey}>
              <span>{fillText(texts.known, { name, keyId, since: dayMonthYear(since) })}</span>
              <button
                type="button"
                className="button quiet"
                aria-label={fillText(texts.forgetLabel, { name })}
                onClick={() => void actions.forgetKey(publicKey)}
              >
                {texts.forget}
              </button>
            </li>
          ))}
        </ul>
      )}
      <AddKey />
    </div>
  )
}

function AddKey() {
  const actions = useActions()
  const { keys: texts } = useServices().site.texts.log
  const [key, setKey] = useState('')
  const [name, setName] = useState('')
  const add = async (event: SyntheticEvent): Promise<void> => {
    event.preventDefault()
    await actions.trustKey(key, name)
    setKey('')
    setName('')
  }
  return (
    <form onSubmit={(event) => void add(event)}>
      <div className="pair">
        <TextField label={texts.keyField} hint={texts.keyHint} value={key} onChange={setKey} />
        <TextField label={texts.nameField} hint={texts.nameHint} value={name} onChange={setName} />
      </div>
      <button type="submit" className="button">
        {texts.add}
      </button>
    </form>
  )
}
