import { defined } from '../basics/defined.ts'
import { faulty, ok } from '../basics/result.ts'
import { ANTICOAGULANTS, ARM_RESTRICTIONS, type ArmRestriction } from '../order/order.ts'
import { readAction } from './readAction.ts'
import { TRAINS } from './scenario.ts'
import type {
  Scenario,
  ScenarioFault,
  ScenarioLine,
  ScenarioOrder,
  ScenarioReading,
  ScenarioSitting,
} from './scenario.ts'
import { scenarioTime_ms } from './scenarioTime.ts'
import type { Vocabulary } from './vocabulary.ts'

const HEADERS = [
  'title',
  'about',
  'trains',
  'tests',
  'child',
  'from',
  'blood thinner',
  'not left',
  'not right',
  'hour',
] as const
type Header = (typeof HEADERS)[number]

/**
 * Reads a scenario file. Headers come first, `title: ...`, then lines of the script: a time, what happens, its words.
 * A line without a time happens at the time of the line before it; `#` begins a comment.
 * @returns the scenario, or everything that is wrong with it, each with its line.
 */
export function readScenario(text: string, vocabulary: Vocabulary): ScenarioReading {
  const faults: ScenarioFault[] = []
  const headers = new Map<Header, { text: string; line: number }>()
  let lines: ScenarioLine[] = []
  const first = lines
  const later: ScenarioSitting[] = []
  let at_ms = 0
  for (const [index, raw] of text.split(/\r?\n/).entries()) {
    const line = index + 1
    const content = raw.replace(/(^|\s)#.*$/, '').trim()
    const fail = (message: string): void => void faults.push({ line, message })
    if (content === '') continue
    const header = /^([a-z ]+):\s+(.+)$/.exec(content)
    if (header && lines.length === 0 && later.length === 0) {
      const name = header[1] as Header
      if (!HEADERS.includes(name)) fail(`There is no header "${name}".`)
      else if (headers.has(name)) fail(`The header "${name}" stands twice.`)
      else headers.set(name, { text: header[2] ?? '', line })
      continue
    }
    const [, sitting, after = ''] = /^sitting (\d+) after (\S+)$/.exec(content) ?? []
    if (sitting !== undefined) {
      const after_ms = scenarioTime_ms(after)
      if (after_ms === undefined) fail(`"${after}" is no time; write minutes and seconds, 1:05.`)
      if (Number(sitting) !== later.length + 2) fail(`Sitting ${later.length + 2} comes next.`)
      lines = []
      at_ms = 0
      later.push({ after_ms: after_ms ?? 0, lines })
      continue
    }
    const timed = /^(\d[\d:]*)\s+(.*)$/.exec(content)
    if (timed) {
      const time_ms = scenarioTime_ms(timed[1] ?? '')
      if (time_ms === undefined) fail(`"${timed[1]}" is no time; write minutes and seconds, 1:05.`)
      else if (time_ms < at_ms) fail('This time is before the line above.')
      else at_ms = time_ms
    } else if (lines.length === 0) {
      fail('The first line of the script needs a time.')
    }
    const action = readAction(timed ? (timed[2] ?? '') : content, vocabulary)
    if (typeof action === 'string') fail(action)
    else lines.push({ ...action, at_ms, line })
  }
  const need = (name: Header): string => {
    const found = headers.get(name)?.text
    if (found === undefined) faults.push({ line: 1, message: `The header "${name}" is missing.` })
    return found ?? ''
  }
  const head = { title: need('title'), about: need('about') }
  const order = readOrder(need('tests'), headers, faults)
  const scenario: Scenario = defined({
    ...head,
    trains: readTrains(headers.get('trains'), faults),
    order,
    lines: first,
    hour_min: readHour(headers.get('hour'), faults),
    later: later.length > 0 ? later : undefined,
  })
  return faults.length > 0 ? faulty(faults) : ok(scenario)
}

/** `8 months, 7 kg`, `1 day, 3 kg`: a limit on blood goes by both. */
function readChild(
  found: { text: string; line: number } | undefined,
  faults: ScenarioFault[],
): ScenarioOrder['child'] {
  if (!found) return undefined
  const [, months, weight] = /^(\d{1,3}) months?, (\d+(?:\.\d+)?) kg$/.exec(found.text) ?? []
  if (months !== undefined && weight !== undefined) {
    return { age_months: Number(months), weight_kg: Number(weight) }
  }
  const [, days, ofNewborn] = /^(\d{1,2}) days?, (\d+(?:\.\d+)?) kg$/.exec(found.text) ?? []
  if (days !== undefined && ofNewborn !== undefined) {
    return { age_months: 0, age_days: Number(days), weight_kg: Number(ofNewborn) }
  }
  faults.push({ line: found.line, message: 'A child is written "8 months, 7 kg".' })
  return undefined
}

/** What it is practice of: `trains: tubes`. */
function readTrains(
  found: { readonly text: string; readonly line: number } | undefined,
  faults: ScenarioFault[],
): Scenario['trains'] {
  const known = TRAINS.find((name) => name === found?.text)
  if (found && !known) {
    faults.push({ line: found.line, message: `It trains one of ${TRAINS.join(', ')}.` })
  }
  return known
}

/** `6 min`: how long an hour of waiting lasts between the draws of a series. */
function readHour(
  found: { readonly text: string; readonly line: number } | undefined,
  faults: ScenarioFault[],
): number | undefined {
  if (!found) return undefined
  const [, minutes] = /^(\d{1,2}) min$/.exec(found.text) ?? []
  const hour_min = Number(minutes)
  if (hour_min >= 1 && hour_min <= 60) return hour_min
  faults.push({ line: found.line, message: 'How long an hour lasts is written "6 min".' })
  return undefined
}

/** Not from a vein: `from: heel`. */
function readFrom(
  found: { readonly text: string; readonly line: number } | undefined,
  faults: ScenarioFault[],
): ScenarioOrder['collecting'] {
  if (!found) return undefined
  if (found.text === 'heel') return 'capillaryHeel'
  if (found.text === 'finger') return 'capillaryFinger'
  faults.push({ line: found.line, message: 'From is heel or finger; without it, a vein.' })
  return undefined
}

function readOrder(
  tests: string,
  headers: ReadonlyMap<Header, { text: string; line: number }>,
  faults: ScenarioFault[],
): ScenarioOrder {
  const thinner = headers.get('blood thinner')
  const known = ANTICOAGULANTS.find((name) => name === thinner?.text)
  if (thinner && !known) {
    faults.push({
      line: thinner.line,
      message: `Blood thinner is one of ${ANTICOAGULANTS.join(', ')}.`,
    })
  }
  const restriction = (name: 'not left' | 'not right'): ArmRestriction | undefined => {
    const found = headers.get(name)
    const why = ARM_RESTRICTIONS.find((reason) => reason === found?.text)
    if (found && !why) {
      faults.push({
        line: found.line,
        message: `The reason is one of ${ARM_RESTRICTIONS.join(', ')}.`,
      })
    }
    return why
  }
  const left = restriction('not left')
  const right = restriction('not right')
  return defined({
    tests: tests
      .split(',')
      .map((code) => code.trim())
      .filter(Boolean),
    anticoagulant: known,
    child: readChild(headers.get('child'), faults),
    collecting: readFrom(headers.get('from'), faults),
    restrictions: defined({ left, right }),
  })
}
