import { describe, expect, it } from 'vitest'
import { findPractice } from '../../../src/app/site/practiceGroups.ts'
import { isTranslated, scenarioIn } from '../../../src/app/site/practiceTexts.ts'
import type { NamedScenario } from '../../../src/app/site/namedScenario.ts'
import type { ScenarioLine } from '../../../src/core/scenario/scenario.ts'
import { LANGUAGE_FILES } from '../../../src/data/languages.ts'
import { englishScripts } from '../../support/scripts.ts'

const { es } = LANGUAGE_FILES
const spanish = englishScripts.map((named) => scenarioIn(named, es))

const linesOf = ({ scenario: { lines, later = [] } }: NamedScenario): readonly ScenarioLine[] =>
  [lines, ...later.map((part) => part.lines)].flat()
const textOf = (line: ScenarioLine): string => ('text' in line ? line.text : '')
const pairs = englishScripts.flatMap((named, n) => {
  const shown = linesOf(spanish[n]!)
  return linesOf(named).map((line, i) => [line, shown[i]!] as const)
})
const of = (which: (line: ScenarioLine) => boolean) => pairs.filter(([line]) => which(line))

describe('a practice script in Spanish', () => {
  it('does and expects what it did, in the same places', () => {
    for (const [line, shown] of pairs) expect({ ...shown, text: '' }).toEqual({ ...line, text: '' })
    expect(spanish.map(({ id }) => id)).toEqual(englishScripts.map(({ id }) => id))
  })

  it('leaves what is said in English, and what tests expect', () => {
    const same = of((line) => line.kind === 'expect' || (line.kind === 'do' && line.via === 'say'))
    expect(same.length).toBeGreaterThan(1000)
    expect(same.filter(([line, shown]) => textOf(line) !== textOf(shown))).toEqual([])
  })

  it('tells, and lets write, in Spanish', () => {
    const told = of(isTranslated)
    expect(told.length).toBeGreaterThan(100)
    for (const [line, shown] of told) expect(textOf(shown)).toBe(es.practice?.lines[textOf(line)])
  })

  it('names a button by what stands on it', () => {
    const pressed = of((line) => line.kind === 'do' && line.via === 'touch')
    expect(pressed.length).toBeGreaterThan(20)
    const buttons = new Set<string>(Object.values(es.words.commands))
    expect(pressed.filter(([, shown]) => !buttons.has(textOf(shown)))).toEqual([])
  })

  it('is found by words without their accents', () => {
    const found = (typed: string) => findPractice(spanish, typed).map(({ id }) => id)
    expect(found('pulsatil')).toEqual(found('pulsátil'))
    expect(found('pulsatil')).toContain('bright-blood')
  })

  it('is shown as it was written where nobody translated it', () => {
    const [own] = englishScripts
    const { title, about } = scenarioIn({ ...own!, id: 'our-own' }, es).scenario
    expect([title, about]).toEqual([own!.scenario.title, own!.scenario.about])
    const told: ScenarioLine = { kind: 'tell', text: 'The lift is stuck.', at_ms: 0, line: 9 }
    const shown = scenarioIn({ id: 'ours', scenario: { ...own!.scenario, lines: [told] } }, es)
    expect(shown.scenario.lines).toEqual([told])
  })
})
