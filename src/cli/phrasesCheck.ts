import { readFileSync } from 'node:fs'
import { readLexicon } from '../core/voice/lexicon.ts'
import { phrasesCheckCommand } from './phrasesCheckCommand.ts'
import cli from '../data/en/cli.json' with { type: 'json' }
import { errorText } from '../core/basics/errorText.ts'

const here = (path: string): URL => new URL(path, import.meta.url)

function main(args: readonly string[]): number {
  if (args.length > 2 || args[0]?.startsWith('-')) {
    process.stderr.write(`${cli.usage.phrases}\n`)
    return 2
  }
  const [file = here('../data/en/phrases.json'), words = here('../../public/lexicon.en.txt')] = args
  try {
    const lexicon = readLexicon(readFileSync(words, 'utf8'))
    const { code, stdout, stderr } = phrasesCheckCommand(readFileSync(file, 'utf8'), lexicon)
    process.stdout.write(stdout)
    process.stderr.write(stderr)
    return code
  } catch (error) {
    process.stderr.write(`${errorText(error)}\n`)
    return 2
  }
}

process.exitCode = main(process.argv.slice(2))
