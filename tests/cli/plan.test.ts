import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import type { Plan } from '../../src/core/plan/plan.ts'
import { planCommand } from '../../src/cli/planCommand.ts'
import { texts } from '../../src/data/en/texts.ts'
import { planInput, POLICY, SITE } from '../support/planning.ts'

const { order, patient, preparation, needleSet } = planInput(['bmp', 'folate', 'cbc'])
const ORDER = { order, patient, preparation, needleSet }
const site = { ...SITE, policy: POLICY, texts, today: '2026-11-25' }
const run = (value: unknown) =>
  planCommand(typeof value === 'string' ? value : JSON.stringify(value), site)

describe('the plan command', () => {
  it('gives the plan as JSON and code 0', () => {
    const { code, stdout, stderr } = run(ORDER)
    expect([code, stderr]).toEqual([0, ''])
    expect((JSON.parse(stdout) as Plan).tubes.map(({ tubeCode }) => tubeCode)).toEqual([
      'gel35',
      'edta2',
    ])
  })

  it('gives the later draws of an order beside the first', () => {
    const { code, stdout } = run({ ...ORDER, order: { ...order, tests: ['ogtt75'] } })
    const plan = JSON.parse(stdout) as Plan & { later: { plan: Plan; tests: string[] }[] }
    expect(code).toBe(0)
    expect(plan.tubes.map(({ tests }) => tests)).toEqual([['glucoseFasting']])
    expect(plan.later.map((sitting) => sitting.plan.tubes.map(({ tests }) => tests))).toEqual([
      [['glucose75g1h']],
      [['glucose75g2h']],
    ])
  })

  it('gives a partial plan, code 1 and the name of what is left out', () => {
    const { code, stdout, stderr } = run({
      ...ORDER,
      order: { ...order, tests: ['cbc', 'moonlight'] },
    })
    expect(code).toBe(1)
    expect((JSON.parse(stdout) as Plan).uncovered.map(({ test }) => test)).toEqual(['moonlight'])
    expect(stderr).toContain('moonlight is not covered')
  })

  it.each([
    ['no JSON', '{"order":', /Not valid JSON/],
    ['an empty file', '', /Not valid JSON/],
    ['a missing part', { ...ORDER, patient: undefined }, /patient/],
    ['an unknown field', { ...ORDER, order: { ...order, tsets: [] } }, /tsets/],
    [
      'a date of another form',
      { ...ORDER, patient: { ...patient, birthDate: '5.5.1980' } },
      /patient\.birthDate/,
    ],
    ['a negative weight', { ...ORDER, patient: { ...patient, weight_kg: -4 } }, /weight of -4 kg/],
    [
      'a gauge nobody makes',
      { ...ORDER, needleSet: { ...needleSet, gauge: 7 } },
      /needleSet\.gauge/,
    ],
    ['no test', { ...ORDER, order: { ...order, tests: [] } }, /names no test/],
    [
      'bad stock',
      { ...ORDER, stock: [{ tubeCode: 'x', lot: '', expires: '2029-01-01', count: 1 }] },
      /Stock, row 1/,
    ],
  ])('%s: code 2, a reason and no output', (_what, value, reason) => {
    const { code, stdout, stderr } = run(value)
    expect([code, stdout]).toEqual([2, ''])
    expect(stderr).toMatch(reason)
  })
})

describe('as a program', { timeout: 30_000 }, () => {
  const folder = mkdtempSync(join(tmpdir(), 'plan-'))
  afterAll(() => rmSync(folder, { recursive: true }))
  const program = (...args: string[]) =>
    spawnSync(process.execPath, ['--import', 'tsx', 'src/cli/plan.ts', ...args], {
      encoding: 'utf8',
    })

  it('reads a file, prints JSON and writes nothing', () => {
    const file = join(folder, 'order.json')
    writeFileSync(file, JSON.stringify({ ...ORDER, today: '2026-11-25' }))
    const { status, stdout, stderr } = program(file)
    expect([status, stderr]).toEqual([0, ''])
    expect((JSON.parse(stdout) as Plan).problems).toEqual([])
    expect(readdirSync(folder)).toEqual(['order.json'])
  })

  it('ends with 2 for a file that is not there and without a file', () => {
    const missing = program(join(folder, 'none.json'))
    expect([missing.status, missing.stdout]).toEqual([2, ''])
    expect(missing.stderr).toContain('cannot be read')
    expect(program().status).toBe(2)
  })
})
