import { useState, type ReactNode } from 'react'
import { useTexts } from '../shared/useTexts.ts'

interface CatalogueRowProps {
  readonly name: string
  /** Beside the name on its one line: what most look for. */
  readonly short: string
  /** The rest, on opening: what it is called and what it is; what is empty is left out. */
  readonly details: readonly (readonly [string, ReactNode])[]
  readonly onChange: () => void
  readonly onAnother: () => void
}

/** One line of the catalog, which opens to everything that is known of it. */
export function CatalogueRow({ name, short, details, onChange, onAnother }: CatalogueRowProps) {
  const t = useTexts().texts.catalogue.edit
  // Two buttons a row are hundreds on the screen: they are there once a row is open.
  const [open, setOpen] = useState(false)
  return (
    <li>
      <details
        className="catalogueRow"
        onToggle={({ currentTarget }) => setOpen(currentTarget.open)}
      >
        <summary>
          <strong>{name}</strong> <span className="soft">{short}</span>
        </summary>
        <dl>
          {details.map(([label, value], i) =>
            value === undefined || value === '' ? null : (
              <div key={i}>
                <dt>{label}</dt>
                <dd>{value}</dd>
              </div>
            ),
          )}
        </dl>
        {open && (
          <div className="rowOfButtons">
            <button type="button" className="button" onClick={onChange}>
              {t.change}
            </button>
            <button type="button" className="button" onClick={onAnother}>
              {t.another}
            </button>
          </div>
        )}
      </details>
    </li>
  )
}
