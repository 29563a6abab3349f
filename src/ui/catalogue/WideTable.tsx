import type { ReactNode } from 'react'
import { TableHead } from '../shared/TableHead.tsx'

interface WideTableProps {
  /** What it lists; also its caption. */
  readonly name: string
  readonly columns: readonly string[]
  /** The rows. */
  readonly children: ReactNode
}

/** A table that moves sideways by itself on a narrow screen, also by keys. */
export function WideTable({ name, columns, children }: WideTableProps) {
  return (
    <div className="wideTable" role="region" aria-label={name} tabIndex={0}>
      <table>
        <caption>{name}</caption>
        <TableHead columns={columns} />
        <tbody>{children}</tbody>
      </table>
    </div>
  )
}
