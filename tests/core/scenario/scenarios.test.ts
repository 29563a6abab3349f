import { describe, expect, it } from 'vitest'
import { EXCEPTION_KINDS } from '../../../src/core/protocol/exceptions.ts'
import { FLAGS } from '../../../src/core/protocol/events.ts'
import { BENCH_FLAGS } from '../../support/benchFlags.ts'
import { practiceSteps } from '../../../src/core/scenario/practiceSteps.ts'
import { checkLog } from '../../../src/core/log/checkLog.ts'
import { playScenario, playSeries, readScript, scenarioFiles } from '../../support/scenarioSite.ts'
import { sha256 } from '../../support/sampleLog.ts'

const files = scenarioFiles()

function scenarioOf(name: string) {
  const text = files.find((file) => file.name === name)?.text ?? ''
  const reading = readScript(text)
  if (!reading.ok) throw new Error(`${name}: ${JSON.stringify(reading.faults)}`)
  return reading.value
}

describe.each(files)('scenario $name', ({ name }) => {
  const scenario = scenarioOf(name)
  const run = playScenario(scenario)

  it('goes as its script says, on the screen and in the chart', () => {
    expect(run.faults).toEqual([])
  })

  it('expects something, and something of the chart', () => {
    const expected = scenario.lines.flatMap((line) => (line.kind === 'expect' ? [line.what] : []))
    expect(expected.length).toBeGreaterThan(1)
    expect(expected).toContain('chart')
  })

  it('leaves a log that holds', () => {
    expect(checkLog(run.log, sha256)).toMatchObject({ ok: true })
  })

  it('can be rehearsed: each step says what to do or what happens', () => {
    const steps = practiceSteps(scenario)
    expect(steps.length).toBeGreaterThan(1)
    expect(steps.reduce((sum, step) => sum + step.after_ms, 0)).toBe(steps.at(-1)?.at_ms)
    expect(steps.flatMap(({ act, world }) => ((act ?? world) ? [] : ['neither']))).toEqual([])
  })
})

const ofSeries = files.filter(({ name }) => scenarioOf(name).later !== undefined)

describe.each(ofSeries)('the draws of scenario $name', ({ name }) => {
  const scenario = scenarioOf(name)
  const runs = playSeries(scenario)

  it('go in turn as their script says, each in a record of its own', () => {
    expect(runs.map(({ faults }) => faults)).toEqual(runs.map(() => []))
    expect(runs).toHaveLength(1 + (scenario.later?.length ?? 0))
    for (const { log } of runs) expect(checkLog(log, sha256)).toMatchObject({ ok: true })
  })

  it('are practice, with waits that are shorter by what the script says', () => {
    for (const { log } of runs) {
      const opened = log.entries[0]?.event
      if (opened?.type !== 'drawOpened') throw new Error('no opening')
      expect(opened.invented).toBe(true)
      const waits = opened.sitting?.parts.flatMap(({ after_min }) => after_min ?? [])
      // Of one and two hours (catalog row of the glucose tolerance test).
      for (const wait of waits ?? []) expect([6, 12]).toContain(wait)
    }
  })

  it('can be rehearsed to the last', () => {
    for (const part of scenario.later ?? []) expect(practiceSteps(part).length).toBeGreaterThan(1)
  })
})

describe('the scenarios together', () => {
  const logs = files.flatMap(({ name }) => playScenario(scenarioOf(name)).log.entries)

  it('come to every exception', () => {
    const raised = new Set(
      logs.map(({ event }) => (event.type === 'exceptionRaised' ? event.kind : '')),
    )
    expect(EXCEPTION_KINDS.filter((kind) => !raised.has(kind))).toEqual([])
  })

  it('come to the flags that have no exception of their own', () => {
    const raised = new Set(logs.map(({ event }) => (event.type === 'flagRaised' ? event.flag : '')))
    // The others are tried rule by rule and by the random sequences.
    // What is flagged on the bench comes after the scripts: tests/core/protocol/decideBench.test.ts.
    const here = FLAGS.filter((flag) => !BENCH_FLAGS.includes(flag))
    expect(here.filter((flag) => raised.has(flag)).length).toBeGreaterThan(here.length / 2)
  })
})

describe('a script that is wrong', () => {
  const straight = files.find(({ name }) => name === 'straight-draw')?.text ?? ''
  const faultsOf = (text: string) => {
    const reading = readScript(text)
    if (!reading.ok) throw new Error(JSON.stringify(reading.faults))
    return playScenario(reading.value).faults
  }

  it.each([
    ['a wrong screen', 'expect screen Vein', 'expect screen Rack', 'Vein'],
    ['a wrong chart line', 'off 09:01:52, 0:17', 'off 09:01:53, 0:17', 'no such line'],
    ['a wrong outcome', 'expect outcome Complete', 'expect outcome Stopped', 'Complete'],
    ['a phrase that is not open', '0:05  expect screen Identity', '0:05  say spinning', 'cannot'],
  ])('is found: %s', (_name, from, to, found) => {
    const changed = straight.replace(
      from,
      to === '0:05  say spinning' ? '0:05  say tube complete' : to,
    )
    expect(changed).not.toBe(straight)
    expect(faultsOf(changed)[0]?.found).toContain(found)
  })
})
