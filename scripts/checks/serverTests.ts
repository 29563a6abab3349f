import { errorText } from '../../src/core/basics/errorText.ts'
import { buildServers, missingTools } from '../servers/buildServers.ts'
import { runTests } from './runTests.ts'
import { note, type Tally } from './tally.ts'

/** The outside engines that are tried: a FHIR server and a validator. */
const ENGINES = 2

/** Tests against engines built from Maven; counted as skipped, and said so, where they cannot be built here. */
export async function serverTests(tally: Tally): Promise<void> {
  const missing = missingTools()
  if (missing.length > 0) {
    console.log(`left out, because this machine lacks ${missing.join(' and ')}: tests/servers`)
    tally.skipped += ENGINES
    return
  }
  const started = performance.now()
  try {
    const { classpath } = buildServers()
    await runTests(tally, 'tests against outside engines', ['--project', 'servers'], {
      live: true,
      yielding: 'partly',
      env: { STILLHAND_SERVERS: classpath },
    })
  } catch (error) {
    console.log(errorText(error))
    note(tally, 'outside engines', false, (performance.now() - started) / 1000)
  }
}
