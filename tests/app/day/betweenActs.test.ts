import { describe, expect, it } from 'vitest'
import { createBetweenActs, type BetweenActsDeps } from '../../../src/app/day/betweenActs.ts'
import prompts from '../../../src/data/en/prompts.json' with { type: 'json' }

const NEXT = { kind: 'stat', read: 'Robin Testwell, room 3' } as const

function acts(change: Partial<BetweenActsDeps> = {}) {
  return createBetweenActs({
    callNext: () => Promise.resolve(NEXT),
    list: () => ({ waiting: 4, next: NEXT }),
    benchAct: () => Promise.resolve({ done: 3 }),
    takeBackLast: () => Promise.resolve(true),
    pack: () => 7,
    benchDue: () => 2,
    mayReadNames: () => false,
    ...change,
  })
}

describe('what is said between patients', () => {
  it('calls who is next and says why, without a name', async () => {
    expect(await acts().nextPatient()).toEqual({ prompts: ['day.next.stat'] })
  })

  it('reads names only where somebody switched that on', async () => {
    expect(await acts({ mayReadNames: () => true }).nextPatient()).toEqual({
      prompts: ['day.next.stat'],
      read: 'Robin Testwell, room 3',
    })
  })

  it('says that nobody waits', async () => {
    expect(await acts({ callNext: () => Promise.resolve(undefined) }).nextPatient()).toEqual({
      prompts: ['day.nobody'],
    })
    expect(await acts({ list: () => ({ waiting: 0 }) }).readList()).toEqual({
      prompts: ['day.nobody'],
    })
  })

  it('counts as far as anybody counts by ear', async () => {
    expect((await acts().readList()).prompts).toEqual(['day.waiting.4', 'day.next.stat'])
    const many = acts({ list: () => ({ waiting: 13, next: NEXT }) })
    expect((await many.readList()).prompts[0]).toBe('day.waiting.more')
  })

  it('never guesses which tubes are meant', async () => {
    const answer = async (outcome: 'none' | 'several' | { done: number }) =>
      (await acts({ benchAct: () => Promise.resolve(outcome) }).stored()).prompts
    expect(await answer('none')).toEqual(['day.noTube'])
    expect(await answer('several')).toEqual(['day.which'])
    expect(await answer({ done: 2 })).toEqual(['day.recorded'])
    expect(await answer({ done: 0 })).toEqual(['day.notDone'])
  })

  it('says the number of a pack with whatever it answers, and where there is none', async () => {
    expect(await acts().packNumber()).toEqual({ prompts: ['pack.number.7'] })
    expect(await acts().packComplete()).toEqual({ prompts: ['pack.number.7', 'pack.counted'] })
    expect(await acts().packShort()).toEqual({ prompts: ['pack.number.7', 'pack.scan'] })
    expect(await acts({ pack: () => undefined }).packShort()).toEqual({ prompts: ['pack.none'] })
    expect((await acts({ pack: () => 31 }).packNumber()).prompts).toEqual(['pack.number.more'])
  })

  it('answers by prompts that are recorded', async () => {
    const spoken: Readonly<Record<string, string>> = prompts.prompts
    const counts = Array.from({ length: 14 }, (_, waiting) => waiting)
    const kinds = ['stat', 'timed', 'fasting', 'booked', 'plain'] as const
    const answers = await Promise.all([
      ...Object.values(acts()).map((each) => each()),
      ...counts.map((waiting) => acts({ list: () => ({ waiting, next: NEXT }) }).readList()),
      ...counts.map((n) => acts({ pack: () => (n === 0 ? undefined : n * 3) }).packShort()),
      ...kinds.map((kind) =>
        acts({ callNext: () => Promise.resolve({ kind, read: '' }) }).nextPatient(),
      ),
    ])
    const keys = answers
      .flatMap(({ prompts: said }) => said)
      .filter((key) => key !== 'day.waiting.0')
    expect(keys.filter((key) => spoken[key] === undefined)).toEqual([])
  })
})
