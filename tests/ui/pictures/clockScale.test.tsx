// @vitest-environment jsdom
import { cleanup, render } from '@testing-library/react'
import { afterEach, describe, expect, it } from 'vitest'
import type { ClockView } from '../../../src/app/view/drawViewTypes.ts'
import { ClockScale } from '../../../src/ui/draw/ClockScale.tsx'

afterEach(cleanup)

const band = (seconds: number, state: ClockView['state']): ClockView => ({
  id: 'band',
  kind: 'band',
  label: 'Band on',
  text: '',
  value_ms: seconds * 1000,
  limit_ms: 60_000,
  direction: 'up',
  state,
  says: '',
})

/** Where pointer and hatched end stand, in the units of the drawing. */
function places(clock: ClockView) {
  const { container } = render(<ClockScale clock={clock} />)
  const tip = /^M([\d.-]+)/.exec(container.querySelector('.pointer')?.getAttribute('d') ?? '')
  const beyond = container.querySelector('.beyond')
  cleanup()
  return {
    pointer: Number(tip?.[1]) + 6,
    beyond: beyond ? Number(beyond.getAttribute('x')) : undefined,
  }
}

describe('ClockScale', () => {
  it('stands half way at half of the limit, before a hatched end', () => {
    const { pointer, beyond = 0 } = places(band(30, 'nearlyUp'))
    expect(pointer).toBeCloseTo(beyond / 2)
  })

  it('goes on over the hatched end when time runs over, and stays on the drawing', () => {
    const at = [60, 69, 80, 400].map((seconds) => places(band(seconds, 'up')))
    const [limit, ...over] = at.map(({ pointer }) => pointer)
    expect(limit).toBeCloseTo(at[0]?.beyond ?? 0)
    expect([...over]).toEqual([...over].sort((a, b) => a - b))
    for (const x of over) expect(x > (limit ?? 0) && x <= 480).toBe(true)
  })

  it('has no hatched end where nothing is wrong with passing it: a wait, a fill', () => {
    expect(places({ ...band(30, 'running'), direction: 'down' }).beyond).toBeUndefined()
    expect(places({ ...band(70, 'done'), kind: 'drying' }).beyond).toBeUndefined()
    expect(places({ ...band(70, 'nearlyUp'), kind: 'fill' }).beyond).toBeUndefined()
  })
})
