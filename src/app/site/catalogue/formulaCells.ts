/**
 * A cell that a spreadsheet may run when the file is opened in it: one that begins, after any white space, with
 * = + - @, in their wide forms too, or with a tab, a line break or NUL. Source: OWASP ASVS 5, requirement 1.2.10, for
 * = + - @ tab and NUL; the white space, the line breaks and the wide forms from memory.
 * An apostrophe before it makes it text; one that is there already is doubled, so that reading gives back what was.
 */
export const FORMULA_CELL = /^'*\s*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|^'*[\t\r\n\0]/u

/** Takes off the apostrophe that writing put before a cell. */
export function plainCell(cell: string): string {
  return cell.startsWith("'") && FORMULA_CELL.test(cell.slice(1)) ? cell.slice(1) : cell
}
