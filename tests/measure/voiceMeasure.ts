/** `npm run --silent voice:measure -- DIR`: how well, how fast and how falsely the app hears. See USAGE. */
import { measure } from './measure.ts'
import { measureArgs, USAGE } from './measureArgs.ts'
import { InputFault } from './measureInput.ts'
import { reportText } from './report.ts'
import { errorText } from '../../src/core/basics/errorText.ts'

async function main(argv: readonly string[]): Promise<number> {
  try {
    const args = measureArgs(argv)
    const measured = await measure(args, (line) => process.stderr.write(`${line}\n`))
    process.stdout.write(
      args.json ? `${JSON.stringify(measured, null, 2)}\n` : reportText(measured, args.rows),
    )
    return 0
  } catch (error) {
    if (error instanceof InputFault) {
      process.stderr.write(`${error.message}\n\n${USAGE}\n`)
      return 2
    }
    process.stderr.write(`${errorText(error)}\n`)
    return 1
  }
}

process.exitCode = await main(process.argv.slice(2))
