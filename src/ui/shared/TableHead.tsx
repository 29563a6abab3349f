/** The names of a table's columns, each told for its cells. */
export function TableHead({ columns }: { readonly columns: readonly string[] }) {
  return (
    <thead>
      <tr>
        {columns.map((column, i) => (
          <th key={i} scope="col">
            {column}
          </th>
        ))}
      </tr>
    </thead>
  )
}
