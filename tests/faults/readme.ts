import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'

const README = join(import.meta.dirname, '..', '..', 'README.md')
const BEGIN = '<!-- faults: written by `npm run faults -- --readme` -->'
const END = '<!-- end of faults -->'

/** Puts the table of the faults in its place in the README. */
export function writeIntoReadme(table: string): void {
  const text = readFileSync(README, 'utf8')
  const begin = text.indexOf(BEGIN)
  const end = text.indexOf(END)
  if (begin < 0 || end < begin) throw new Error('The README has no place for the faults.')
  writeFileSync(README, `${text.slice(0, begin + BEGIN.length)}\n\n${table}\n\n${text.slice(end)}`)
}
