// @vitest-environment jsdom
import { flushSync } from 'react-dom'
import { createRoot } from 'react-dom/client'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import betweenPhrases from '../../../src/data/en/betweenPhrases.json' with { type: 'json' }
import phrases from '../../../src/data/en/phrases.json' with { type: 'json' }
import { stubLayout } from '../../support/stubLayout.ts'
import { englishLeft, leaves } from './englishLeft.ts'

// Before anything is imported that reads it.
vi.hoisted(() => void (process.env['STILLHAND_LANGUAGE'] = 'es'))
afterAll(() => void delete process.env['STILLHAND_LANGUAGE'])

const { App } = await import('../../../src/ui/App.tsx')
const { shippedSite } = await import('../../support/site.ts')
const { SCENES } = await import('../../support/scenes.ts')
const { DAY_SCENES } = await import('../../support/dayScenes.ts')
const { fakeApp } = await import('../../support/fakeApp.ts')
const views = await import('../../support/views.ts')
const { PLAN, STOPPED_PLAN } = await import('../../support/plans.ts')
const { gallery } = await import('../gallery/galleryStates.ts')
const { shippedScripts } = await import('../../support/scripts.ts')
const { createCoach } = await import('../../../src/app/draw/coach.ts')
const { testInfo } = await import('../../../src/app/record/testInfo.ts')

const { testName } = testInfo(shippedSite.catalogue)

/** Phrases, what the site's own files say, and what is written by hand around each screen. */
const { texts: _t, recordTexts: _r, words: _w, prompts: _p, ...siteData } = shippedSite
const given = (...more: readonly unknown[]): readonly string[] =>
  leaves([siteData, phrases, betweenPhrases, views.STATE, SCENES['homeUnsaved'], ...more])
    .map(([, text]) => text)
    .filter((text) => text !== 'English')
const SAID = ['aria-label', 'title', 'placeholder', 'alt']

/** Everything on a page that is seen or read aloud; the other language on its button is in itself. */
function shownTexts(): readonly string[] {
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
  const texts: string[] = []
  while (walker.nextNode()) {
    const { textContent, parentElement } = walker.currentNode
    // Phrases stay English, and catalog and order are the site's.
    if (parentElement?.closest('[lang="en"], .phrase, .phrases, q, kbd, style')) continue
    texts.push(textContent ?? '')
  }
  for (const name of SAID) {
    for (const each of document.querySelectorAll(`[${name}]`)) texts.push(each.getAttribute(name)!)
  }
  return texts
}

describe('in Spanish no English text is left', () => {
  let host: HTMLElement

  beforeAll(() => {
    stubLayout()
    host = document.body.appendChild(document.createElement('div'))
  })

  function shown(...app: Parameters<typeof fakeApp>): readonly string[] {
    const warned = vi.spyOn(console, 'error').mockImplementation(() => undefined)
    const root = createRoot(host)
    flushSync(() => root.render(<App port={fakeApp(...app)} />))
    const texts = shownTexts()
    flushSync(() => root.unmount())
    // Two children with one key, where two texts of a list are equal in Spanish.
    expect(warned.mock.calls.map(String)).toEqual([])
    warned.mockRestore()
    return texts
  }

  it('finds English where it is left', () => {
    expect(englishLeft(['Gauze', 'Settings', 'Robin Testwell']).length).toBeGreaterThan(0)
    expect(englishLeft(['The vein rolls away.', 'Timed series', 'not prepared ate an hour ago'])).toHaveLength(3) // prettier-ignore
    expect(englishLeft(['Ajustes', 'Robin Testwell'])).toEqual([])
  })

  it('on any state of the draw', () => {
    const texts = gallery(true).states.flatMap(({ view, around }) =>
      shown({
        screen: { name: 'draw', drawId: view.drawId },
        draw: view,
        ...around,
        settings: { ...views.STATE.settings, ...around?.settings, language: 'es' },
      }),
    )
    expect(texts.length).toBeGreaterThan(500)
    expect(englishLeft(texts, given())).toEqual([])
  })

  it('in any practice script, from its title to the last that is told and done', () => {
    const { coach } = shippedSite.texts.draw
    const told = shippedScripts.flatMap(({ scenario }) => {
      const { title, about, later = [] } = scenario
      const views = [1, ...later.map((_, n) => n + 2)].flatMap((sitting) => {
        const guide = createCoach(scenario, coach, sitting)
        const own = [guide.view()]
        while (own.at(-1)?.act !== undefined) {
          guide.advance()
          own.push(guide.view())
        }
        return own
      })
      return [title, about, ...views.flatMap(({ tell, act = '' }) => [...tell, act])]
    })
    expect(told.length).toBeGreaterThan(1500)
    expect(
      englishLeft(
        told,
        leaves(phrases).map(([, text]) => text),
      ),
    ).toEqual([])
  })

  it('on any other screen', () => {
    const days = Object.values(DAY_SCENES).map((make) => make())
    const scenes = [
      // What a draw shows is written by hand there; the gallery has it from the texts.
      ...Object.values(SCENES)
        .filter(({ screen }) => screen?.name !== 'draw')
        .map((state) => ({ state, services: { scenarios: shippedScripts } })),
      ...days.map(({ state, services }) => ({ state, services: { testName, ...services } })),
    ]
    const texts = scenes.flatMap(({ state, services }) =>
      shown(
        { ...state, settings: { ...views.STATE.settings, ...state.settings, language: 'es' } },
        services,
      ),
    )
    expect(texts.length).toBeGreaterThan(500)
    expect(englishLeft(texts, given({ ...views }, PLAN, STOPPED_PLAN, SCENES))).toEqual([])
  })
})
