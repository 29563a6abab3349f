/**
 * The value that a table itself holds for a key from outside, or `undefined`: never what every object inherits, such as
 * `constructor`.
 */
export function ownValue<T>(table: Readonly<Record<string, T>>, key: string): T | undefined {
  return Object.hasOwn(table, key) ? table[key] : undefined
}
