// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import { describe, expect, it } from 'vitest'
import { FILLING } from '../support/views.ts'
import { axeFindings } from './axe.ts'
import { renderApp } from './renderApp.tsx'

const DRAW = { screen: { name: 'draw', drawId: FILLING.drawId }, draw: FILLING } as const

describe('a screen that may go dark', () => {
  it.each([
    ['refused', 'Plug it in'],
    ['unavailable', 'stay on for ten minutes'],
  ] as const)('is told of in the draw, with what to do: %s', async (wake, advice) => {
    renderApp({ ...DRAW, wake })
    expect(screen.getByText('The screen may go dark.').parentElement?.textContent).toContain(advice)
    expect(await axeFindings()).toEqual([])
  })

  it.each(['off', 'asked', 'held'] as const)('is not told of while it is %s', (wake) => {
    renderApp({ ...DRAW, wake })
    expect(screen.queryByText('The screen may go dark.')).toBeNull()
  })
})
