import { describe, expect, it } from 'vitest'
import { findPractice, practiceGroupOf } from '../../../src/app/site/practiceGroups.ts'
import { isRehearsals, rehearsedAt, withRehearsal } from '../../../src/app/site/rehearsals.ts'
import { readSettings } from '../../../src/app/site/readSettings.ts'
import { DEFAULT_SETTINGS } from '../../../src/app/site/settings.ts'
import { SERVICES } from '../../support/fakeServices.ts'
import { readScript, scenarioFiles } from '../../support/scenarioSite.ts'

const files = scenarioFiles()
const { scenarios } = SERVICES
const found = (typed: string) => findPractice(scenarios, typed).map(({ id }) => id)

describe('practice draws', () => {
  it('are sorted by what they train, few of them under none', () => {
    const groupOf = (wanted: string) => {
      const reading = readScript(files.find(({ name }) => name === wanted)?.text ?? '')
      return practiceGroupOf(reading.ok ? reading.value : {})
    }
    expect(groupOf('slow-flow')).toBe('tubes')
    expect(groupOf('brand-new')).toBe('other')
    const sorted = files.filter(({ name }) => groupOf(name) !== 'other')
    expect(sorted.length / files.length).toBeGreaterThan(0.9)
  })

  it('are found by how their words begin, in any order, never from inside a word', () => {
    const all = scenarios.map(({ id }) => id)
    expect(found('')).toEqual(all)
    for (const { id, scenario } of scenarios) expect(found(scenario.title)).toContain(id)
    const [first] = scenarios
    const word = /\p{L}{4,}/u.exec(first!.scenario.title)![0]
    expect(found(word.slice(0, 3))).toContain(first!.id)
    expect(found(`${word.slice(1)}zzz`)).toEqual([])
  })
})

describe('when a script was last begun', () => {
  it('is kept with the settings, the newest time of each', () => {
    const kept = withRehearsal(
      withRehearsal(withRehearsal('', 'heel', 5), 'slow-flow', 7.4),
      'heel',
      9,
    )
    expect(kept).toBe('heel=9 slow-flow=7')
    expect([...rehearsedAt(kept)]).toEqual([
      ['heel', 9],
      ['slow-flow', 7],
    ])
    const json = JSON.stringify({ ...DEFAULT_SETTINGS, rehearsed: kept })
    expect(readSettings(json, SERVICES.site.texts.site).value.rehearsed).toBe(kept)
  })

  it.each(['heel', 'heel=', 'heel=x', '=5', 'heel=5  x=6', 'a b=5', 'heel=12345678901234567'])(
    'is not read from %j, and nothing else is lost by it',
    (rehearsed) => {
      expect(isRehearsals(rehearsed)).toBe(false)
      const json = JSON.stringify({ ...DEFAULT_SETTINGS, volume: 0.3, rehearsed })
      const { value, faults } = readSettings(json, SERVICES.site.texts.site)
      expect([value.rehearsed, value.volume, faults.length]).toEqual(['', 0.3, 1])
    },
  )
})
