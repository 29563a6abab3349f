// @vitest-environment jsdom
import { act, screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { readFileSync } from 'node:fs'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { DrawView } from '../../../src/app/view/drawViewTypes.ts'
import { HOLD_ms } from '../../../src/ui/draw/useHold.ts'
import { drawDriver, TO_HANDS } from '../../support/drawDriver.ts'
import { sampleOpening } from '../../support/sampleLog.ts'
import { viewOf } from '../../support/viewTexts.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

beforeEach(() => void vi.useFakeTimers({ shouldAdvanceTime: true }))
afterEach(() => void vi.useRealTimers())

function atArm(restrictions: { left?: 'nodeRemoval'; right?: 'fistula' } = {}): DrawView {
  const draw = drawDriver({ preparation: { ...sampleOpening().preparation, restrictions } })
  draw.does(...TO_HANDS)
  return viewOf(draw)
}

function atVein(arm: 'left' | 'right'): DrawView {
  const draw = drawDriver()
  draw.does(...TO_HANDS, `chooseArm:${arm}`)
  return viewOf(draw)
}

function open(draw: DrawView, letPass = true) {
  const app = renderApp({ screen: { name: 'draw', drawId: draw.drawId }, draw })
  if (letPass) act(() => void vi.advanceTimersByTime(HOLD_ms))
  return app
}

const commands = ({ calls }: ReturnType<typeof open>) =>
  calls.filter(([name]) => name === 'command').map(([, ...args]) => args)
const user = () => userEvent.setup({ advanceTimers: (ms) => void vi.advanceTimersByTime(ms) })

describe('ArmPicture', () => {
  it.each([
    ['left arm chosen', { type: 'chooseArm', arm: 'left' }],
    ['right arm chosen', { type: 'chooseArm', arm: 'right' }],
    ['patient seated', { type: 'seated' }],
  ])('sends the command of "%s" when it is tapped', async (name, command) => {
    const app = open(atArm())
    await user().click(screen.getByRole('button', { name: new RegExp(name) }))
    expect(commands(app)).toEqual([[command, 'touch']])
  })

  it.each([
    ['median vein', 'medianCubital'],
    ['outer vein', 'cephalic'],
    ['inner vein', 'basilic'],
    ['hand vein', 'hand'],
    ['another vein', 'other'],
  ])('sends the vein of "%s", on either arm', async (name, vein) => {
    for (const arm of ['left', 'right'] as const) {
      const app = open(atVein(arm))
      const [button] = screen.getAllByRole('button', { name: new RegExp(name) }).slice(-1)
      if (button) await user().click(button)
      expect(commands(app)).toEqual([[{ type: 'chooseVein', vein }, 'touch']])
    }
  })

  it('waits like every other choice, and is gone over by the arrow keys', async () => {
    const app = open(atVein('left'), false)
    await user().click(screen.getByRole('button', { name: /median vein/ }))
    expect(commands(app)).toEqual([])
    act(() => void vi.advanceTimersByTime(HOLD_ms))
    // From the one that was pressed to the next.
    await user().keyboard('{ArrowRight}{Enter}')
    expect(commands(app)).toEqual([[{ type: 'chooseVein', vein: 'cephalic' }, 'keys']])
  })

  it('offers no closed arm, names it, and says why in words beside the hatching', () => {
    open(atArm({ right: 'fistula' }))
    expect(screen.queryByRole('button', { name: /right arm chosen/ })).toBeNull()
    const why = screen.getByText('Closed: fistula or graft')
    const closed = why.closest('.oneArm')
    expect(closed?.textContent).toContain('Right arm')
    expect(closed?.querySelector('.hatch')).not.toBeNull()
    expect(document.querySelectorAll('.hatch')).toHaveLength(1)
  })

  it('tells nothing by color alone: one ink for all, hatching and words for what is closed', () => {
    const css = readFileSync('src/ui/pictures/armPicture.css', 'utf8')
    expect(css).not.toMatch(/#[0-9a-f]{3}|rgb|--(stop|go|warn|alarm|blood)/)
    open(atVein('right'))
    for (const vein of ['medianCubital', 'cephalic', 'basilic', 'hand', 'other']) {
      expect(document.querySelector(`.vein.${vein} .phrase`)?.textContent).toMatch(/“.+vein”/)
    }
    expect(document.querySelector('.armLegend')?.textContent).toContain('Right arm')
  })

  // The medial or lateral plantar surface of the heel, side of middle or ring finger: WHO guidelines on drawing blood 2010, from memory.
  it.each([
    ['capillaryHeel', /Inner or outer edge of the sole at the heel/],
    ['capillaryFinger', /middle or ring finger/],
  ] as const)('a %s is drawn on either side, hatched where not to lance, and tapped', async (collecting, says) => {
    const draw = drawDriver({ collecting })
    draw.does(...TO_HANDS)
    const app = open(viewOf(draw))
    expect(document.querySelectorAll('.drawnSkin')).toHaveLength(2)
    expect(document.querySelectorAll('.drawnSkin .hatch')).toHaveLength(2)
    expect(document.querySelectorAll('.drawnSkin .lanceHere')).toHaveLength(2)
    expect(document.querySelector('.armLegend')?.textContent).toMatch(says)
    await user().click(screen.getByRole('button', { name: /left side chosen/ }))
    expect(commands(app)).toEqual([[{ type: 'chooseSide', arm: 'left' }, 'touch']])
    expect(await axeFindings()).toEqual([])
  }) // prettier-ignore

  it('a finger of an arm that is closed is hatched whole, with the reason', () => {
    const { preparation } = sampleOpening()
    const draw = drawDriver({
      collecting: 'capillaryFinger',
      preparation: { ...preparation, restrictions: { right: 'infusion' } },
    })
    draw.does(...TO_HANDS)
    open(viewOf(draw))
    expect(screen.getByText('Closed: infusion')).toBeDefined()
    expect(screen.queryByRole('button', { name: /right side chosen/ })).toBeNull()
    expect(document.querySelectorAll('.lanceHere')).toHaveLength(1)
  })

  it('is left out of what is read aloud; its buttons are not', async () => {
    open(atArm({ right: 'fistula' }))
    for (const svg of document.querySelectorAll('.drawnArm')) {
      expect(svg.getAttribute('aria-hidden')).toBe('true')
    }
    expect(await axeFindings()).toEqual([])
  })
})
