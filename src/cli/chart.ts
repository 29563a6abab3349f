import { createSystemClock } from '../adapters/time/systemClock.ts'
import { readFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { sha256 } from '../adapters/crypto/sha256.ts'
import { verifySignature } from '../adapters/crypto/verifySignature.ts'
import { chartCommand, FORMATS } from './chartCommand.ts'
import { errorText } from '../core/basics/errorText.ts'

const USAGE = `Use: npm run --silent chart -- log.json --format ${FORMATS.join('|')} [--key KEYID]`

/** Reads an exported log and prints its note, its FHIR bundle, or whether it is as it was written. Writes no file. */
async function main(): Promise<number> {
  let given: { file: string; format: string; key: string | undefined }
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: { format: { type: 'string', default: 'note' }, key: { type: 'string' } },
    })
    const [file, ...more] = positionals
    if (file === undefined || more.length > 0) throw new Error('Name one log file.')
    given = { file, format: values.format, key: values.key }
  } catch (error) {
    console.error(`${errorText(error)}\n${USAGE}`)
    return 2
  }
  let bytes: Uint8Array
  try {
    bytes = readFileSync(given.file)
  } catch (error) {
    console.error(`The file cannot be read: ${errorText(error)}`)
    return 2
  }
  const { code, out, err } = await chartCommand(bytes, given.format, given.key, {
    sha256,
    verifySignature,
    now_ms: createSystemClock('chart').read().wall_ms,
  })
  if (out) process.stdout.write(out)
  if (err) console.error(err)
  return code
}

process.exitCode = await main()
