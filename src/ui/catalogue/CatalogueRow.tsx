import type { ReactNode } from 'react'

interface CatalogueRowProps {
  readonly name: string
  /** Beside the name on its one line: what most look for. */
  readonly short: string
  /** The rest, on opening: what it is called and what it is; what is empty is left out. */
  readonly details: readonly (readonly [string, ReactNode])[]
}

/** One line of the catalog, which opens to everything that is known of it. */
export function CatalogueRow({ name, short, details }: CatalogueRowProps) {
  return (
    <li>
      <details className="catalogueRow">
        <summary>
          <strong>{name}</strong> <span className="soft">{short}</span>
        </summary>
        <dl>
          {details.map(([label, value]) =>
            value === undefined || value === '' ? null : (
              <div key={label}>
                <dt>{label}</dt>
                <dd>{value}</dd>
              </div>
            ),
          )}
        </dl>
      </details>
    </li>
  )
}
