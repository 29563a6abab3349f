import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { readOrder } from '../../src/app/order/readOrder.ts'
import { planCommand } from '../../src/cli/planCommand.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { texts } from '../../src/data/en/texts.ts'
import { fhirIssues } from '../support/fhirChecks.ts'
import { structureIssues } from '../support/fhirDefinitions.ts'
import { POLICY, SITE } from '../support/planning.ts'

const ROOT = join(import.meta.dirname, '..', '..')
const example = (name: string): string => readFileSync(join(ROOT, 'examples', name), 'utf8')

const { order, patient } = JSON.parse(example('order.json')) as {
  order: { orderNumber: string; tests: string[]; provider: string; priority: string }
  patient: Record<
    'fullName' | 'familyName' | 'givenNames' | 'birthDate' | 'recordNumber' | 'sex' | 'weight_kg',
    unknown
  >
}
const TUBES = ['gel35', 'edta2']

describe('the example order', () => {
  it('says that it is invented, in every form', () => {
    for (const name of ['order.json', 'order.csv', 'order.fhir.json']) {
      expect(example(name).match(/\(invented\)/g)?.length, name).toBeGreaterThanOrEqual(2)
    }
  })

  it.each(['order.csv', 'order.fhir.json'])(
    'is the same order in %s, without a question',
    (name) => {
      const reading = readOrder(example(name), {
        catalogue: SITE.catalogue,
        texts,
        today: '2026-11-25',
      })
      const { weight_kg: _weight, ...who } = patient
      expect(reading).toEqual({
        ok: true,
        value: { draft: { ...order, ...who }, questions: [] },
      })
    },
  )

  it('is a bundle as R4 defines it', () => {
    const text = example('order.fhir.json')
    // The validator does not look up what an address within the bundle leads to.
    const typed = JSON.parse(
      text.replaceAll(/"reference": "urn:uuid:/g, '"reference": "Patient/'),
    ) as {
      entry: { resource: object }[]
    }
    const resources = [typed, ...typed.entry.map(({ resource }) => resource)]
    expect(resources.flatMap((resource) => structureIssues(resource))).toEqual([])
    expect(fhirIssues(JSON.parse(text) as Record<string, unknown>)).toEqual([])
  })

  it('is planned without a problem', () => {
    const site = { ...SITE, policy: POLICY, texts, today: '2026-11-25' }
    const { code, stdout, stderr } = planCommand(example('order.json'), site)
    expect([code, stderr]).toEqual([0, ''])
    expect((JSON.parse(stdout) as Plan).tubes.map(({ tubeCode }) => tubeCode)).toEqual(TUBES)
  })

  it('is planned by the command as the README writes it', () => {
    const npm = spawnSync('npm', ['run', '--silent', 'plan', '--', 'examples/order.json'], {
      cwd: ROOT,
      encoding: 'utf8',
    })
    expect([npm.status, npm.stderr]).toEqual([0, ''])
    const plan = JSON.parse(npm.stdout) as Plan
    expect(plan.tubes.map(({ tubeCode }) => tubeCode)).toEqual(TUBES)
  })
})
