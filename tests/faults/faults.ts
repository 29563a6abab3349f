/**
 * `npm run --silent faults -- [--only id,id] [--lanes N] [--markdown | --readme] [--list]`: does to the built app in
 * Chromium what goes wrong in a real room, one device for each fault, and prints a JSON row for each: what was done,
 * what the screen said within two seconds, what was lost of what had been confirmed, and how the alarm of the band
 * went. `--readme` puts the table into the README. Ends with 1 when something was lost, nothing was said, or an alarm
 * was late.
 */
import { parseArgs } from 'node:util'
import { markdownOf } from './markdown.ts'
import { writeIntoReadme } from './readme.ts'
import { KEPT, runFaults } from './runFaults.ts'
import { FAULTS } from './table.ts'

const { values } = parseArgs({
  options: {
    only: { type: 'string' },
    // More of them hold each other up on two cores, and what is then late is late for that reason.
    lanes: { type: 'string', default: '3' },
    markdown: { type: 'boolean', default: false },
    readme: { type: 'boolean', default: false },
    list: { type: 'boolean', default: false },
  },
})

const asked = values.only?.split(',')
const unknown = (asked ?? []).filter(
  (id) => !FAULTS.some((fault) => [fault.id, fault.family].includes(id)),
)
if (unknown.length > 0)
  throw new Error(`There is no fault ${unknown.join(', ')}; --list tells them.`)
const faults = FAULTS.filter(
  ({ id, family }) => !asked || asked.includes(id) || asked.includes(family),
)

if (values.list) {
  for (const { id, family, did } of faults) console.log(`${family}\t${id}\t${did}`)
} else {
  const rows = await runFaults(faults, Number(values.lanes), (row) => {
    if (!values.markdown || values.readme) console.log(JSON.stringify(row))
  })
  if (values.markdown) console.log(markdownOf(rows))
  if (values.readme) writeIntoReadme(markdownOf(rows))
  process.exitCode = rows.every(({ verdict }) => verdict === KEPT) ? 0 : 1
}
