import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { createCoach } from '../../../src/app/draw/coach.ts'
import { readScenarios } from '../../../src/app/site/readScenarios.ts'
import phrases from '../../../src/data/en/phrases.json' with { type: 'json' }
import { texts as english } from '../../../src/data/en/texts.ts'
import words from '../../../src/data/en/words.json' with { type: 'json' }

const DIR = 'src/data/scenarios'
const texts = Object.fromEntries(
  readdirSync(DIR).map((name) => [
    `./data/scenarios/${name}`,
    readFileSync(`${DIR}/${name}`, 'utf8'),
  ]),
)
const scenarios = readScenarios(texts, { phrases, words })

describe('the practice list', () => {
  it('holds every script, the straight draw first', () => {
    expect(scenarios).toHaveLength(Object.keys(texts).length)
    expect(scenarios[0]?.id).toBe('straight-draw')
  })

  it('leaves out a script that does not read instead of failing', () => {
    expect(readScenarios({ './x.txt': 'title: X\n0:01 sing a song' }, { phrases, words })).toEqual(
      [],
    )
  })
})

describe('the coach', () => {
  it('tells the trainee of every script what to do from the first step to the end', () => {
    for (const { scenario } of scenarios) {
      const guide = createCoach(scenario, english.draw.coach)
      const acts: string[] = []
      for (let act = guide.view().act; act !== undefined; act = guide.view().act) {
        acts.push(act)
        guide.advance()
      }
      expect(acts.length, scenario.title).toBeGreaterThan(2)
      expect(guide.view().tell[0]).toContain('at its end')
    }
  })

  it('begins the straight draw with the patient', () => {
    const straight = scenarios[0]?.scenario
    expect(straight && createCoach(straight, english.draw.coach).view().act).toBe(
      'Say "patient confirmed"',
    )
  })
})
