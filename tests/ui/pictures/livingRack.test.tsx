// @vitest-environment jsdom
import { readFileSync } from 'node:fs'
import { cleanup, render, screen, within } from '@testing-library/react'
import { afterEach, describe, expect, it, vi } from 'vitest'
import type { RackTubeView } from '../../../src/app/view/drawViewTypes.ts'
import { aroundTurn } from '../../../src/ui/pictures/aroundTurn.ts'
import { LivingRack } from '../../../src/ui/pictures/LivingRack.tsx'
import { tubeForm } from '../../../src/ui/pictures/tubeForm.ts'
import { AppContext } from '../../../src/ui/shared/appContext.tsx'
import { fakeApp } from '../../support/fakeApp.ts'
import { FILLING } from '../../support/views.ts'
import { axeFindings } from '../axe.ts'

afterEach(cleanup)

const shelf = (rack: readonly RackTubeView[]) => (
  <AppContext value={fakeApp()}>
    <main>
      <LivingRack rack={rack} />
    </main>
  </AppContext>
)

const fillingAs = (id: string, elapsed_ms: number, isHeld = false): readonly RackTubeView[] =>
  FILLING.rack.map((tube) =>
    tube.filling ? { ...tube, filling: { ...tube.filling, id, elapsed_ms, isHeld } } : tube,
  )

/** A browser that animates, which jsdom does not; `still` is one whose person wants no motion. */
function animated(still = false) {
  const animate = vi.fn<Element['animate']>(() => ({ cancel: () => undefined }) as Animation)
  Element.prototype.animate = animate
  vi.stubGlobal('matchMedia', () => ({ matches: still }))
  return animate
}

afterEach(() => {
  Reflect.deleteProperty(Element.prototype, 'animate')
  vi.unstubAllGlobals()
})

describe('LivingRack', () => {
  it('has every tube with number, tests, handling and state in words', () => {
    render(shelf(FILLING.rack))
    const items = screen.getAllByRole('listitem')
    expect(items).toHaveLength(FILLING.rack.length)
    for (const [i, tube] of FILLING.rack.entries()) {
      for (const text of [String(tube.number), tube.tests, tube.closure, tube.statusText]) {
        expect(items[i]?.textContent).toContain(text)
      }
      for (const { words } of tube.handling) expect(items[i]?.textContent).toContain(words)
    }
  })

  it('says whose turn it is, and that the level goes by the clock', () => {
    render(shelf(FILLING.rack))
    const turn = screen
      .getAllByRole('listitem')
      .filter((item) => item.getAttribute('aria-current') === 'step')
    expect(turn).toHaveLength(1)
    expect(turn[0]?.textContent).toContain('tube 3 of 5')
    expect(turn[0]?.textContent).toContain('level by the clock')
  })

  it('gives the browser once when the level began and how long it takes', () => {
    const animate = animated()
    const { rerender } = render(shelf(fillingAs('a', 2000)))
    rerender(shelf(fillingAs('a', 4000)))
    expect(animate.mock.calls.map(([, timing]) => timing)).toEqual([
      { duration: 6000, delay: -2000, fill: 'both' },
    ])
    rerender(shelf(fillingAs('b', 100)))
    expect(animate.mock.calls.at(-1)?.[1]).toMatchObject({ delay: -100 })
  })

  it.each([
    ['where no motion is wanted', true, false],
    ['where the flow was said to be lost', false, true],
  ])('stands %s at the tenth that the clock has come to, and does not move', (_, still, isHeld) => {
    const animate = animated(still)
    const rack = fillingAs('a', 2000, isHeld)
    const { container, rerender } = render(shelf(rack))
    const height = (): number =>
      Number(container.querySelector('.rising, .held')?.getAttribute('height'))
    const full = tubeForm('tube', 2.7).level(2.7)
    // Two of six seconds are three tenths and a bit.
    expect(height()).toBeCloseTo(0.3 * full)
    rerender(shelf(fillingAs('a', 3100, isHeld)))
    expect(height()).toBeCloseTo(0.5 * full)
    expect(animate).not.toHaveBeenCalled()
  })

  it('turns a tube over when it is mixed, and not when it was mixed before', () => {
    const as = (status: RackTubeView['status']) =>
      FILLING.rack.slice(0, 1).map((tube) => ({ ...tube, status }))
    const { container, rerender } = render(shelf(as('mix')))
    expect(container.querySelector('.turning')).toBeNull()
    rerender(shelf(as('mixed')))
    expect(container.querySelector('.turning')).not.toBeNull()
    cleanup()
    expect(render(shelf(as('mixed'))).container.querySelector('.turning')).toBeNull()
  })

  it('has no motion for those who ask for none', () => {
    const css = readFileSync('src/ui/pictures/livingRack.css', 'utf8')
    const still = css.slice(css.indexOf('prefers-reduced-motion'))
    expect(still).toMatch(/\.turning \{\s*animation: none;/)
  })

  it('has nothing that axe finds wrong', async () => {
    render(shelf(FILLING.rack))
    expect(await axeFindings()).toEqual([])
    expect(within(screen.getByRole('list')).getAllByRole('listitem').length).toBeGreaterThan(1)
  })
})

describe('aroundTurn', () => {
  it.each([
    // Six tubes fit on a tablet, lying and standing.
    [6, 3, 1140, { from: 0, to: 6 }],
    [6, 3, 780, { from: 0, to: 6 }],
    // A phone shows the one whose turn it is and its neighbors.
    [6, 3, 366, { from: 3, to: 5 }],
    [1, 0, 366, { from: 0, to: 1 }],
    [14, 13, 366, { from: 12, to: 14 }],
  ])('of %i tubes with the turn at %i in %i px', (count, turn, width, shown) => {
    expect(aroundTurn(count, turn, width)).toEqual(shown)
  })

  it('always shows the one whose turn it is', () => {
    for (let count = 1; count <= 14; count += 1) {
      for (let turn = 0; turn < count; turn += 1) {
        for (const width of [366, 780, 1140]) {
          const { from, to } = aroundTurn(count, turn, width)
          expect(from <= turn && turn < to).toBe(true)
        }
      }
    }
  })
})

describe('tubeForm', () => {
  it('draws the same blood at the same scale: twice as high, and lower where it is wider', () => {
    const tube = tubeForm('tube', 10)
    const bottle = tubeForm('bottle', 10)
    expect(tube.level(4)).toBeCloseTo(2 * tube.level(2))
    expect(bottle.level(10) * bottle.half).toBeCloseTo(tube.level(10) * tube.half)
  })

  it.each(['tube', 'bottle', 'micro', 'syringe', 'card'] as const)(
    'of a %s holds what it is to hold',
    (shape) => {
      const form = tubeForm(shape, 3)
      expect(form.level(0)).toBe(0)
      expect(form.level(3)).toBeLessThanOrEqual(form.height)
    },
  )
})
