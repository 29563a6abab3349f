/** What to show or tell of something that was thrown. */
export function errorText(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}
