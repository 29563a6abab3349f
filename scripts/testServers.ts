/** `npm run test:servers`: the record as a real FHIR server and the official validator's engine take it. */
import { serverTests } from './checks/serverTests.ts'
import { closingLines, emptyTally } from './checks/tally.ts'

const tally = emptyTally()
await serverTests(tally)
console.log(closingLines(tally))
process.exitCode = tally.failed > 0 ? 1 : 0
