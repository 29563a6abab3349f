import { useState } from 'react'
import { isSystemUri, isWebAddress } from '../../app/site/recordSystems.ts'
import { defined } from '../../core/basics/defined.ts'
import type { SiteSystems } from '../../core/fhir/siteSystems.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { Section } from '../shared/Section.tsx'
import { SelectField } from '../shared/SelectField.tsx'
import { TextField } from '../shared/TextField.tsx'
import { Tick } from '../shared/Tick.tsx'

type Kind = 'patient' | 'practitioner' | 'order'
type Field = Kind | 'visit' | 'provider' | 'base'
type FoundBy = NonNullable<SiteSystems['order']>['foundBy']

interface Typed {
  readonly systems: Readonly<Record<Field, string>>
  readonly create: Readonly<Record<Kind, boolean>>
  readonly foundBy: FoundBy
}

const FOUND_BY: readonly FoundBy[] = ['requisition', 'identifier']

/** How the site's record server names things; kept as a whole, in use from the next start on. */
export function RecordServerSection() {
  const { recordSystems, texts } = useServices().site
  const actions = useActions()
  const t = texts.recordServer
  const [typed, setTyped] = useState(() => typedOf(recordSystems))
  const fault = (field: Field): string | undefined => {
    const text = typed.systems[field].trim()
    if (text === '') return undefined
    if (field === 'base') return isWebAddress(text) ? undefined : t.notWeb
    return isSystemUri(text) ? undefined : t.notAddress
  }
  const fields: readonly Field[] = ['patient', 'practitioner', 'order', 'visit', 'provider', 'base']
  const isSound = fields.every((field) => fault(field) === undefined)
  const tick = (kind: Kind) => (
    <Tick
      label={t.create[kind]}
      checked={typed.create[kind]}
      onChange={(may) => setTyped({ ...typed, create: { ...typed.create, [kind]: may } })}
    />
  )
  const isWhole = typed.foundBy === 'identifier'
  return (
    <Section title={t.title} about={t.about}>
      {fields.map((field) => (
        <div key={field} className="settingsBlock">
          <TextField
            label={t.fields[field].label}
            hint={t.fields[field].hint}
            error={fault(field)}
            inputMode="url"
            spellCheck={false}
            value={typed.systems[field]}
            onChange={(text) =>
              setTyped({ ...typed, systems: { ...typed.systems, [field]: text } })
            }
          />
          {typed.systems[field] !== '' &&
            (field === 'patient' || field === 'practitioner') &&
            tick(field)}
          {typed.systems[field] !== '' && field === 'order' && (
            <>
              <SelectField
                label={t.foundBy}
                options={FOUND_BY}
                nameOf={(each) => t.foundByNames[each]}
                value={typed.foundBy}
                onChange={(foundBy) => setTyped({ ...typed, foundBy })}
              />
              {isWhole ? <p className="soft">{t.notCreated}</p> : tick('order')}
            </>
          )}
        </div>
      ))}
      <button
        type="button"
        className="button"
        disabled={!isSound}
        onClick={() => void actions.keepRecordSystems(JSON.stringify(systemsOf(typed)))}
      >
        {t.keep}
      </button>
    </Section>
  )
}

function typedOf({ patient, practitioner, order, visit, provider, base }: SiteSystems): Typed {
  return {
    systems: {
      patient: patient?.system ?? '',
      practitioner: practitioner?.system ?? '',
      order: order?.system ?? '',
      visit: visit ?? '',
      provider: provider ?? '',
      base: base ?? '',
    },
    create: {
      patient: patient?.create ?? false,
      practitioner: practitioner?.create ?? false,
      order: order?.create ?? false,
    },
    foundBy: order?.foundBy ?? 'requisition',
  }
}

function systemsOf({ systems, create, foundBy }: Typed): SiteSystems {
  const given = (field: Field): string | undefined => systems[field].trim() || undefined
  const kind = (field: Kind) => {
    const system = given(field)
    return system === undefined ? undefined : { system, create: create[field] }
  }
  const order = kind('order')
  return defined({
    base: given('base'),
    patient: kind('patient'),
    practitioner: kind('practitioner'),
    order: order && { ...order, foundBy, create: order.create && foundBy === 'requisition' },
    visit: given('visit'),
    provider: given('provider'),
  })
}
