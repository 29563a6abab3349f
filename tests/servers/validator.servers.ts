import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { fhirText } from '../../src/app/record/fhirText.ts'
import type { DrawLog } from '../../src/core/protocol/entry.ts'
import { DRAWS } from '../support/fhirDraws.ts'
import { texts } from '../../src/data/en/texts.ts'
import { OPEN_SITE, STRICT_SITE, transactionFor } from '../support/fhirTransaction.ts'
import { sampleLog, sha256 } from '../support/sampleLog.ts'
import { playSeries, readScript, scenarioFiles, scenarioSite } from '../support/scenarioSite.ts'
import { startJava } from './java.ts'
import { KNOWN_WARNINGS } from './knownWarnings.ts'

interface Finding {
  readonly file: string
  readonly severity: string
  readonly where: string
  readonly kind: string
  readonly message: string
}

let folder = ''
let findings: readonly Finding[] = []
const names: string[] = []

const file = (name: string, text: string): void => {
  writeFileSync(join(folder, `${name}.json`), text)
  names.push(`${name}.json`)
}
const site = { catalogue: scenarioSite.catalogue, recordTexts: texts, recordSystems: OPEN_SITE }

function scenarioLogs(): readonly (readonly [string, DrawLog])[] {
  return scenarioFiles().flatMap(({ name, text }) => {
    const reading = readScript(text)
    if (!reading.ok) throw new Error(`${name} does not read.`)
    return playSeries(reading.value).map(({ log }, index) => [`${name}-${index + 1}`, log] as const)
  })
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'stillhand-fhir-'))
  for (const [name, log] of scenarioLogs()) file(`scenario-${name}`, fhirText(log, site, sha256))
  for (const [index, [, log]] of DRAWS.entries()) file(`draw-${index}`, fhirText(log, site, sha256))
  file('transaction', JSON.stringify(transactionFor(sampleLog(), OPEN_SITE)))
  file('transaction-found', JSON.stringify(transactionFor(sampleLog(), STRICT_SITE)))
  // What must be found, or the engine looks at nothing.
  const broken = JSON.parse(fhirText(sampleLog(), site, sha256)) as {
    entry: { resource: Record<string, unknown> }[]
  }
  const procedure = broken.entry.find(({ resource }) => resource['resourceType'] === 'Procedure')
  delete procedure?.resource['status']
  file('broken-status', JSON.stringify(broken))
  const code = fhirText(sampleLog(), site, sha256).replaceAll('left-medianCubital', 'left-elbow')
  file('broken-code', code)
  findings = await validate()
}, 1_800_000)
afterAll(() => rmSync(folder, { recursive: true, force: true }))

async function validate(): Promise<readonly Finding[]> {
  const own = join(import.meta.dirname, '..', '..', 'public', 'fhir')
  const java = startJava('Validate', '2g', [own, ...names.map((name) => join(folder, name))])
  let out = ''
  let err = ''
  java.stdout?.setEncoding('utf8').on('data', (text: string) => (out += text))
  java.stderr?.setEncoding('utf8').on('data', (text: string) => (err += text))
  const code = await new Promise((resolve) => java.on('close', resolve))
  if (code !== 0) throw new Error(err.slice(-3000))
  return out
    .trim()
    .split('\n')
    .map((line) => {
      const [path = '', severity = '', where = '', kind = '', message = ''] = line.split('\t')
      return { file: path.slice(folder.length + 1), severity, where, kind, message }
    })
}

const short = ({ file: name, where, kind, message }: Finding): string =>
  `${name} ${where} ${kind} ${message}`

describe('the official validator’s engine', () => {
  it('looked at every bundle', () => {
    const done = findings.filter(({ severity }) => severity === 'done').map((each) => each.file)
    expect(done).toEqual(names)
    expect(names.length).toBeGreaterThan(55)
  })

  it('finds what is wrong: a status that is missing, a code that our own system does not have', () => {
    const errors = (name: string) =>
      findings.filter((each) => each.file === name && each.severity === 'error').map(short)
    expect(errors('broken-status.json').join()).toContain('status')
    expect(errors('broken-code.json').join()).toContain('left-elbow')
  })

  it('finds no error in any exported record', () => {
    const wrong = findings.filter(
      ({ file: name, severity }) =>
        !name.startsWith('broken') && (severity === 'error' || severity === 'fatal'),
    )
    expect(wrong.map(short)).toEqual([])
  })

  it('gives no warning of a kind that is not listed with its reason', () => {
    const warnings = findings.filter(
      ({ file: name, severity }) => !name.startsWith('broken') && severity === 'warning',
    )
    const isKnown = ({ where, message }: Finding): boolean =>
      KNOWN_WARNINGS.some((known) => known.where.test(where) && known.message.test(message))
    expect(warnings.filter((each) => !isKnown(each)).map(short)).toEqual([])
    const idle = KNOWN_WARNINGS.filter(
      (known) =>
        !warnings.some(
          ({ where, message }) => known.where.test(where) && known.message.test(message),
        ),
    )
    expect(idle.map(({ why }) => why)).toEqual([])
  })
})
