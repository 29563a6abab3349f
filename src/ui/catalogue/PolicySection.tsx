import { useState } from 'react'
import { policyJson, type PolicyFault } from '../../app/site/readPolicy.ts'
import type { Shortened } from '../../app/intake/firstFaults.ts'
import { LIMIT_KEYS, policyChanges, type Policy } from '../../core/policy/policy.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { FileButton } from '../shared/FileButton.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { WideTable } from './WideTable.tsx'

type PolicyReading = Shortened<Policy, PolicyFault>

/** The limits of the protocol with their sources; a site brings its own in after seeing what changes. */
export function PolicySection() {
  const { site, page, intake } = useServices()
  const actions = useActions()
  const { texts, fill } = useTexts()
  const { catalogue: t } = texts
  const { policy, defaultPolicy } = site
  const changes = policyChanges(defaultPolicy, policy)
  const [preview, setPreview] = useState<PolicyReading>()
  const choose = async (file: File): Promise<void> => setPreview(await intake.limits(file))
  const save = (): void =>
    page.saveText({ name: 'limits.json', type: 'application/json', text: policyJson(policy) })
  return (
    <section className="catalogue policy" aria-labelledby="policy-title">
      <h2 id="policy-title">{t.limits}</h2>
      <p>{t.limitsAbout}</p>
      {changes.length > 0 && (
        <p>
          <strong>{t.siteChanged}</strong>{' '}
          {changes
            .map(({ key, from, to }) =>
              fill(t.limitChange, { name: site.texts.note.limits[key], limit: key, from, to }),
            )
            .join('; ')}
        </p>
      )}
      <FileButton
        id="policy-file"
        label={t.limitsFile}
        accept=".json,application/json"

        onFile={(file) => void choose(file)}
      />
      {preview && (
        <PreviewOfLimits
          preview={preview}
          shipped={defaultPolicy}
          onAccept={(next) => void actions.keepPolicy(policyJson(next))}
          onDiscard={() => setPreview(undefined)}
        />
      )}
      <p>
        <button type="button" className="button" onClick={save}>
          {t.saveLimits}
        </button>
      </p>
      <LimitsTable />
    </section>
  )
}

/** Each limit by its name in words and by the name that it has in a file. */
function LimitsTable() {
  const { policy, texts } = useServices().site
  const { catalogue: t } = useTexts().texts
  const { limit, value, source } = t.columns
  return (
    <WideTable name={t.limitsTable} columns={[limit, value, source]}>
      {LIMIT_KEYS.map((key) => (
        <tr key={key}>
          <th scope="row">
            {texts.note.limits[key]} <span className="small soft">{key}</span>
          </th>
          <td>{policy.limits[key].value}</td>
          <td>{policy.limits[key].source}</td>
        </tr>
      ))}
    </WideTable>
  )
}

interface PreviewProps {
  readonly preview: PolicyReading
  readonly shipped: Policy
  readonly onAccept: (next: Policy) => void
  readonly onDiscard: () => void
}

function PreviewOfLimits({ preview, shipped, onAccept, onDiscard }: PreviewProps) {
  const { texts, fill } = useTexts()
  const { catalogue: t } = texts
  const { reading, more } = preview
  const next = reading.ok ? reading.value : undefined
  const changes = policyChanges(shipped, next ?? shipped)
  return (
    <div className="preview" role="status">
      {!reading.ok && (
        <>
          <p>{t.mendFirst}</p>
          <ul>
            {reading.faults.map(({ key, text }, i) => (
              <li key={i}>
                <strong>{key}</strong>
                {fill(t.limitFault, { text })}
              </li>
            ))}
          </ul>
          {more > 0 && <p className="soft">{fill(t.more, { n: more })}</p>}
        </>
      )}
      {changes.length > 0 && (
        <ul>
          {changes.map(({ key, from, to }) => (
            <li key={key}>
              <strong>{key}</strong>
              {fill(t.limitPreview, { from, to })}
            </li>
          ))}
        </ul>
      )}
      {next && changes.length === 0 && <p>{t.sameLimits}</p>}
      {next && (
        <button type="button" className="button go" onClick={() => onAccept(next)}>
          {t.acceptLimits}
        </button>
      )}{' '}
      <button type="button" className="button" onClick={onDiscard}>
        {t.leaveLimits}
      </button>
    </div>
  )
}
