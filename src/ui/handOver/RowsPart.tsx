import { useState, type ReactNode } from 'react'
import type { HandOverRow } from '../../core/handOver/handOverRow.ts'
import { HandOverRowLine } from './HandOverRowLine.tsx'
import { useHandOverTexts } from './useHandOverTexts.ts'

interface RowsPartProps {
  readonly part: 'waiting' | 'refused' | 'kept'
  readonly rows: readonly HandOverRow[]
  readonly children?: ReactNode
}

/** So many are shown before somebody asks for more. */
const SHOWN = 20

/** Rows that stand alike. */
export function RowsPart({ part, rows, children }: RowsPartProps) {
  const { texts, fill } = useHandOverTexts()
  const [isAll, setAll] = useState(false)
  const { title, about } = texts.parts[part]
  const shown = isAll ? rows : rows.slice(0, SHOWN)
  return (
    <section aria-labelledby={`hand-over-${part}`}>
      <h2 id={`hand-over-${part}`}>{title}</h2>
      {rows.length === 0 ? <p>{texts.none}</p> : <p className="soft">{about}</p>}
      {children}
      {rows.length > 0 && (
        <ul className="bare handOverRows">
          {shown.map((row) => (
            <HandOverRowLine key={row.key} row={row} />
          ))}
        </ul>
      )}
      {shown.length < rows.length && (
        <button type="button" className="button quiet" onClick={() => setAll(true)}>
          {fill(texts.more, { n: rows.length - shown.length })}
        </button>
      )}
    </section>
  )
}
