// @vitest-environment jsdom
import { cleanup, render, screen } from '@testing-library/react'
import { afterEach, describe, expect, it } from 'vitest'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'
import { rulerStrip } from '../../../src/core/record/rulerStrip.ts'
import { RulerStrip } from '../../../src/ui/pictures/RulerStrip.tsx'
import { AppContext } from '../../../src/ui/shared/appContext.tsx'
import { fakeApp } from '../../support/fakeApp.ts'
import { SAMPLE_DRAW_ID, sampleLog } from '../../support/sampleLog.ts'
import { renderApp } from '../renderApp.tsx'

afterEach(cleanup)

function show(log: DrawLog, size: 'whole' | 'row') {
  const strip = rulerStrip(log)
  return render(
    <AppContext value={fakeApp()}>
      <RulerStrip strip={strip} size={size} />
    </AppContext>,
  )
}

const late = sampleLog({
  without: ({ type }) => type === 'bandOff',
  add: [[169, { type: 'bandOff' }]],
})

describe('RulerStrip', () => {
  it('shows the words beside the marks, and hatches what is over a limit', () => {
    const { container } = show(late, 'whole')
    expect(screen.getByText('tourniquet 1:09, over 1:00')).toBeDefined()
    expect(screen.getByText('2 gold')).toBeDefined()
    expect(container.querySelector('rect.over')?.getAttribute('fill')).toMatch(/^url\(#/)
  })

  it('says all of it to who cannot see it', () => {
    show(late, 'whole')
    const { ariaLabel } = screen.getByRole('img')
    expect(ariaLabel ?? screen.getByRole('img').getAttribute('aria-label')).toMatch(
      /^Ruler of the draw, 09:01:00 to 09:06:20: skin cleaned; .*tourniquet 1:09, over 1:00; .*3 lavender/,
    )
  })

  it.each([
    [sampleLog(), 'complete'],
    [sampleLog({ without: ({ type }) => type === 'drawClosed' }), 'not closed'],
  ])('has the outcome in words beside the small one', (log, outcome) => {
    const { container } = show(log, 'row')
    expect(screen.getByText(outcome)).toBeDefined()
    expect(container.querySelectorAll('svg text')).toHaveLength(0)
  })

  it('stands at the head of the chart note', () => {
    renderApp({
      screen: { name: 'chart', drawId: SAMPLE_DRAW_ID },
      records: new Map([[SAMPLE_DRAW_ID, late]]),
    })
    const strip = screen.getByRole('img', { name: /^Ruler of the draw/ })
    const note = screen.getByRole('article')
    expect(strip.compareDocumentPosition(note)).toBe(Node.DOCUMENT_POSITION_FOLLOWING)
  })
})
