/** `npm run model:build`: the shipped model's archive from its weights again, compared to the last byte. */
import { modelArchive } from './checks/modelArchive.ts'
import { closingLines, emptyTally } from './checks/tally.ts'

const tally = emptyTally()
modelArchive(tally)
console.log(closingLines(tally))
process.exitCode = tally.failed > 0 ? 1 : 0
