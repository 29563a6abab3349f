import { describe, expect, it } from 'vitest'
import { twoChairs } from '../../support/twoChairs.ts'

/** Two devices that were set to one prefix: nothing keeps a person from it. Common practice, no source. */
const ONE_PREFIX = 'AA22'
const ANNA = { fullName: 'Anna First', recordNumber: 'MRN-A', orderNumber: 'O-1' }
const BERT = { fullName: 'Bert Second', recordNumber: 'MRN-B', orderNumber: 'O-2' }

describe('two draws of one number, given by two devices that did not know of each other', () => {
  it('never turn the screen of one to the patient of the other; each stays with its device, which is told', async () => {
    const { a, b, hub } = await twoChairs(ONE_PREFIX)
    hub.setUp(false)
    const drawId = await a.begin(ANNA)
    expect(await b.begin(BERT)).toBe(drawId)
    await b.follow('cleanse')
    hub.setUp(true)
    await a.pass(8)
    for (const [chair, name] of [
      [a, 'Anna First'],
      [b, 'Bert Second'],
    ] as const) {
      const { draw, others, draws } = chair.state()
      expect(draw?.elsewhere).toBeUndefined()
      expect(JSON.stringify(draw)).toContain(name)
      expect(others).toEqual([])
      expect(draws.map(({ patientName }) => patientName)).toEqual([name])
    }
    // One of the two stands at the hub; the other device says that its own does not.
    const aside = [a, b].flatMap((chair) => chair.state().clinic?.aside ?? [])
    expect(aside).toMatchObject([{ drawId, from_seq: 1 }])
    // And both go on to their end.
    for (const chair of [a, b]) {
      await chair.follow('closed')
      await chair.pass(4)
      const { entries } = await chair.stored(drawId)
      expect(entries.some(({ event }) => event.type === 'drawClosed')).toBe(true)
    }
  })

  it('are not made where the number of the other is known', async () => {
    const { a, b } = await twoChairs(ONE_PREFIX)
    const first = await a.begin(ANNA)
    await b.pass(5)
    const second = await b.begin(BERT)
    expect(second).not.toBe(first)
    await a.pass(5)
    expect(a.state().others.map(({ drawId }) => drawId)).toEqual([second])
    expect(b.state().others.map(({ drawId }) => drawId)).toEqual([first])
  })
})
