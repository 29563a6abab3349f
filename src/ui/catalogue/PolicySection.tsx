import { useState, type ChangeEvent } from 'react'
import { policyJson, previewPolicy, type PolicyPreview } from '../../app/site/sitePolicy.ts'
import { LIMIT_KEYS, policyChanges } from '../../core/policy/policy.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { WideTable } from './WideTable.tsx'

/** The limits of the protocol with their sources; a site brings its own in after seeing what changes. */
export function PolicySection() {
  const { site, page } = useServices()
  const actions = useActions()
  const { policy, defaultPolicy } = site
  const changes = policyChanges(defaultPolicy, policy)
  const [preview, setPreview] = useState<PolicyPreview>()
  const choose = async (event: ChangeEvent<HTMLInputElement>): Promise<void> => {
    const input = event.target
    const file = input.files?.[0]
    if (!file) return
    setPreview(previewPolicy(defaultPolicy, await file.text(), site.texts.site))
    input.value = ''
  }
  const save = (): void =>
    page.saveText({ name: 'limits.json', type: 'application/json', text: policyJson(policy) })
  return (
    <section className="catalogue policy" aria-labelledby="policy-title">
      <h2 id="policy-title">Limits</h2>
      <p>
        Times and counts of the draw, each with where it comes from. A limit of your own is shown in
        every chart note.
      </p>
      {changes.length > 0 && (
        <p>
          <strong>Your site has changed:</strong>{' '}
          {changes.map(({ key, from, to }) => `${key} from ${from} to ${to}`).join('; ')}.
        </p>
      )}
      <label htmlFor="policy-file">JSON file of limits to look at</label>
      <input
        id="policy-file"
        className="input"
        type="file"
        accept=".json,application/json"
        onChange={(event) => void choose(event)}
      />
      {preview && (
        <PreviewOfLimits
          preview={preview}
          onAccept={() => preview.next && void actions.keepPolicy(policyJson(preview.next))}
          onDiscard={() => setPreview(undefined)}
        />
      )}
      <p>
        <button type="button" className="button" onClick={save}>
          Save the limits as JSON
        </button>
      </p>
      <WideTable name="Limits of the draw" columns={['Limit', 'Value', 'Source']}>
        {LIMIT_KEYS.map((key) => (
          <tr key={key}>
            <th scope="row">{key}</th>
            <td>{policy.limits[key].value}</td>
            <td>{policy.limits[key].source}</td>
          </tr>
        ))}
      </WideTable>
    </section>
  )
}

interface PreviewProps {
  readonly preview: PolicyPreview
  readonly onAccept: () => void
  readonly onDiscard: () => void
}

function PreviewOfLimits({ preview, onAccept, onDiscard }: PreviewProps) {
  const { faults, changes, next } = preview
  return (
    <div className="preview" role="status">
      {faults.length > 0 && <p>Nothing was changed. Mend these first:</p>}
      <ul>
        {faults.map(({ key, text }) => (
          <li key={key}>
            <strong>{key}</strong>: {text}
          </li>
        ))}
        {changes.map(({ key, from, to }) => (
          <li key={key}>
            <strong>{key}</strong>: shipped {from}, yours {to}
          </li>
        ))}
      </ul>
      {next && changes.length === 0 && <p>These are the shipped limits.</p>}
      {next && (
        <button type="button" className="button go" onClick={onAccept}>
          Use these limits
        </button>
      )}{' '}
      <button type="button" className="button" onClick={onDiscard}>
        Leave it
      </button>
    </div>
  )
}
