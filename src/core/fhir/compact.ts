/**
 * Takes out what FHIR does not allow to stand: `undefined`, empty texts, empty lists and empty objects, so that no
 * quantity, period or concept is ever written without content.
 */
export function compact<T>(value: T): T {
  return (strip(value) ?? {}) as T
}

function strip(value: unknown): unknown {
  if (value === undefined || value === null) return undefined
  if (typeof value === 'string') return value.trim() === '' ? undefined : value
  if (typeof value === 'number') return Number.isFinite(value) ? value : undefined
  if (Array.isArray(value)) {
    const items = value.map(strip).filter((item) => item !== undefined)
    return items.length > 0 ? items : undefined
  }
  if (typeof value === 'object') {
    const fields = Object.entries(value).flatMap(([key, field]) => {
      const kept = strip(field)
      return kept === undefined ? [] : [[key, kept] as const]
    })
    return fields.length > 0 ? Object.fromEntries(fields) : undefined
  }
  return value
}
