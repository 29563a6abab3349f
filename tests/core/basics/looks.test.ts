import { describe, expect, it } from 'vitest'
import { createLooks } from '../../../src/core/basics/looks.ts'

const settled = (): Promise<void> => new Promise((done) => setImmediate(done))

/** Looks that end when they are let. */
function held(isOn = (): boolean => true) {
  const ends: { readonly end: () => void; readonly fail: () => void }[] = []
  const ask = createLooks(
    () =>
      new Promise<void>((resolve, reject) => {
        ends.push({ end: resolve, fail: () => reject(new Error('No disk.')) })
      }),
    isOn,
  )
  return { ask, ends }
}

describe('looks after something', () => {
  it('begin at once, never two at a time, and once more for any number that asked meanwhile', async () => {
    const { ask, ends } = held()
    ask()
    expect(ends).toHaveLength(1)
    ask()
    ask()
    expect(ends).toHaveLength(1)
    ends[0]?.end()
    await settled()
    expect(ends).toHaveLength(2)
    ends[1]?.end()
    await settled()
    expect(ends).toHaveLength(2)
    ask()
    expect(ends).toHaveLength(3)
  })

  it('go on after one that failed', async () => {
    const { ask, ends } = held()
    ask()
    ask()
    ends[0]?.fail()
    await settled()
    expect(ends).toHaveLength(2)
  })

  it('are not begun while it is off, and go on when it is on again', async () => {
    let isOn = false
    const { ask, ends } = held(() => isOn)
    ask()
    expect(ends).toHaveLength(0)
    isOn = true
    ask()
    ask()
    isOn = false
    ends[0]?.end()
    await settled()
    expect(ends).toHaveLength(1)
    isOn = true
    ask()
    expect(ends).toHaveLength(2)
  })
})
