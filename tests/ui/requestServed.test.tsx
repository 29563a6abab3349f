// @vitest-environment jsdom
import { describe, expect, it } from 'vitest'
import { DAY_SCENES } from '../support/dayScenes.ts'
import { renderApp } from './renderApp.tsx'

const scene = DAY_SCENES['requestOfTwo']?.()
const pages = (): readonly string[] =>
  [...document.querySelectorAll('.requestForm')].map(({ textContent }) => textContent ?? '')

describe('the request of several orders that share a draw', () => {
  it('names each order with its own tests, and everybody who ordered', () => {
    renderApp(scene?.state)
    const [main = ''] = pages()
    expect(main).toMatch(/O-04 \(bmp, vitaminD\); O-05 \(cbc\)/)
    expect(main).toContain('Dr. Placeholder 04; Dr. Placeholder 05')
  })

  it('says in words what it is a recollection of and why, on the page of each laboratory', () => {
    renderApp(scene?.state)
    expect(pages()).toHaveLength(2)
    for (const page of pages()) {
      expect(page).toContain('Recollection of draw D7-20261124-0002: hemolyzed, told by phone.')
      expect(page).toContain('Ward 2, bed 4')
    }
  })

  it('leaves out of an order what was taken off the form, and of another person names none', () => {
    const { draft } = scene?.state ?? {}
    if (!draft) throw new Error('The scene has no form.')
    renderApp({ ...scene?.state, draft: { ...draft, tests: ['bmp', 'cbc'] } })
    expect(pages().join()).toContain('O-04 (bmp); O-05 (cbc)')
    renderApp({ ...scene?.state, draft: { ...draft, recordNumber: 'MRN-OTHER' } })
    expect(pages().at(-1)).not.toMatch(/O-05|Recollection/)
  })
})
