import { createSystemClock } from '../adapters/time/systemClock.ts'
import { calendarDate } from '../core/time/format.ts'
import { readFileSync } from 'node:fs'
import { siteCatalogue } from '../app/site/catalogue/siteCatalogue.ts'
import type { Policy } from '../core/policy/policy.ts'
import { fillText } from '../core/basics/fillText.ts'
import cli from '../data/en/cli.json' with { type: 'json' }
import { texts } from '../data/en/texts.ts'
import { planCommand, type PlanCommandSite } from './planCommand.ts'
import { errorText } from '../core/basics/errorText.ts'

const data = (name: string): string =>
  readFileSync(new URL(`../data/${name}`, import.meta.url), 'utf8')

function site(today: string): PlanCommandSite {
  const files = {
    tests: data('catalogue/tests.csv'),
    tubes: data('catalogue/tubes.csv'),
    stock: data('catalogue/stock.csv'),
    norms: data('catalogue/norms.json'),
    preferences: data('catalogue/preferences.json'),
    series: data('catalogue/series.json'),
    search: data('catalogue/search.json'),
    bloodLimits: data('catalogue/bloodLimits.json'),
    laboratories: data('catalogue/laboratories.json'),
  }
  const policy = JSON.parse(data('policy.json')) as Policy
  return { ...siteCatalogue(files, texts), policy, texts, today }
}

function main(args: readonly string[]): number {
  const [file, ...more] = args
  if (!file || more.length > 0) {
    process.stderr.write(`${cli.usage.plan}\n`)
    return 2
  }
  let text: string
  try {
    text = readFileSync(file, 'utf8')
  } catch (error) {
    process.stderr.write(`${fillText(cli.unread, { file, why: errorText(error) })}\n`)
    return 2
  }
  const { wall_ms, offset_min } = createSystemClock('plan').read()
  const today = calendarDate({ at_ms: wall_ms, offset_min })
  const { code, stdout, stderr } = planCommand(text, site(today))
  process.stdout.write(stdout)
  process.stderr.write(stderr)
  return code
}

process.exitCode = main(process.argv.slice(2))
