export type RequestRow = readonly [label: string, value: string]

/** Rows of the printed request; one without a value is a line to write on. */
export function RequestRows({ rows }: { readonly rows: readonly RequestRow[] }) {
  return (
    <dl>
      {rows.map(([label, value], i) => (
        <div key={i}>
          <dt>{label}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  )
}
