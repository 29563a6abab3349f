// @vitest-environment jsdom
import { cleanup, render, screen } from '@testing-library/react'
import { afterEach, describe, expect, it } from 'vitest'
import type { RulerView } from '../../../src/app/view/drawViewTypes.ts'
import { DrawRuler } from '../../../src/ui/pictures/DrawRuler.tsx'
import { AppContext } from '../../../src/ui/shared/appContext.tsx'
import { fakeApp } from '../../support/fakeApp.ts'
import { FILLING } from '../../support/views.ts'

afterEach(cleanup)

function itemsOf(ruler: RulerView): readonly (string | null)[] {
  render(
    <AppContext value={fakeApp()}>
      <DrawRuler ruler={ruler} />
    </AppContext>,
  )
  return screen.getAllByRole('listitem').map(({ textContent }) => textContent)
}

describe('DrawRuler', () => {
  it('has a word for every mark, in order', () => {
    expect(itemsOf(FILLING.ruler)).toEqual(FILLING.ruler.marks.map(({ text }) => text))
  })

  it('counts the oldest where there is no room for all, and drops none in silence', () => {
    const marks = Array.from({ length: 20 }, (_, seq) => {
      return { seq, look: 'plain' as const, text: `mark ${seq}` }
    })
    const items = itemsOf({ where: '', marks })
    const [before, ...shown] = items
    expect(before).toBe(`${20 - shown.length} before`)
    expect(shown.at(-1)).toBe('mark 19')
  })
})
