import { TableHead } from '../shared/TableHead.tsx'

interface FigureTableProps {
  readonly name: string
  readonly columns: readonly string[]
  /** The first cell of each names it. */
  readonly rows: readonly (readonly string[])[]
}

/** Every point of a figure, for those who read or listen; it moves by itself, also by keys. */
export function FigureTable({ name, columns, rows }: FigureTableProps) {
  return (
    <div className="figureTable" role="region" aria-label={name} tabIndex={0}>
      <table>
        <caption className="visuallyHidden">{name}</caption>
        <TableHead columns={columns} />
        <tbody>
          {rows.map(([first, ...cells], i) => (
            <tr key={i}>
              <th scope="row">{first}</th>
              {cells.map((cell, nth) => (
                <td key={nth}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
