import { createSystemClock } from '../adapters/time/systemClock.ts'
import { readFileSync, statSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { sha256 } from '../adapters/crypto/sha256.ts'
import { verifySignature } from '../adapters/crypto/verifySignature.ts'
import { chartCommand, FORMATS } from './chartCommand.ts'
import { MOST_BYTES } from '../app/intake/chosenFile.ts'
import { errorText } from '../core/basics/errorText.ts'
import { fillText } from '../core/basics/fillText.ts'
import cli from '../data/en/cli.json' with { type: 'json' }
import { texts } from '../data/en/texts.ts'

const USAGE = fillText(cli.usage.chart, { formats: FORMATS.join('|') })

/** Reads an exported log and prints its note, its FHIR bundle, or whether it is as it was written. Writes no file. */
async function main(): Promise<number> {
  let given: { file: string; format: string; key: string | undefined }
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: { format: { type: 'string', default: 'note' }, key: { type: 'string' } },
    })
    const [file, ...more] = positionals
    if (file === undefined || more.length > 0) throw new Error(cli.oneLog)
    given = { file, format: values.format, key: values.key }
  } catch (error) {
    console.error(`${errorText(error)}\n${USAGE}`)
    return 2
  }
  let bytes: Uint8Array
  try {
    const { size } = statSync(given.file)
    if (size > MOST_BYTES.log) {
      const most_MB = MOST_BYTES.log / 1_000_000
      console.error(fillText(texts.text.files.tooLarge, { most_MB }))
      return 2
    }
    bytes = readFileSync(given.file)
  } catch (error) {
    console.error(fillText(cli.unread, { file: given.file, why: errorText(error) }))
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
