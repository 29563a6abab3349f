// @vitest-environment jsdom
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { LANGUAGES } from '../../../src/core/basics/language.ts'
import { stubLayout } from '../../support/stubLayout.ts'

/** What React says to a developer; it says each fault once a page, so that every language is loaded anew. */
let said: string[] = []

beforeEach(() => {
  said = []
  vi.spyOn(console, 'error').mockImplementation((...all) => void said.push(all.map(String).join(' '))) // prettier-ignore
  vi.resetModules()
  stubLayout()
})

afterEach(() => {
  vi.unstubAllEnvs()
  vi.unstubAllGlobals()
  vi.restoreAllMocks()
})

async function host() {
  const { createRoot } = await import('react-dom/client')
  const { flushSync } = await import('react-dom')
  const place = document.body.appendChild(document.createElement('div'))
  return (shown: React.ReactNode, then: () => void = () => undefined): void => {
    const root = createRoot(place)
    flushSync(() => root.render(shown))
    flushSync(then)
    flushSync(() => root.unmount())
  }
}

describe('two texts of one list may be equal', () => {
  it('and a list that is keyed by them would be told of', async () => {
    const show = await host()
    show(
      <ul>
        {['Presionar', 'Presionar'].map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>,
    )
    expect(said.join()).toContain('same key')
  })

  it.each(LANGUAGES)('on no state of the draw in %s', async (language) => {
    vi.stubEnv('STILLHAND_LANGUAGE', language)
    const { App } = await import('../../../src/ui/App.tsx')
    const { fakeApp } = await import('../../support/fakeApp.ts')
    const { STATE } = await import('../../support/views.ts')
    const { texts } = await import('../../support/language.ts')
    const { gallery } = await import('../gallery/galleryStates.ts')
    const show = await host()
    const { states } = gallery(true)
    let sheets_n = 0
    for (const { view, around, sheet } of states) {
      const app = fakeApp({
        screen: { name: 'draw', drawId: view.drawId },
        draw: view,
        ...around,
        settings: { ...STATE.settings, ...around?.settings, language },
      })
      show(<App port={app} />, () => {
        if (!sheet) return
        const buttons = [...document.querySelectorAll('button')]
        buttons.find(({ textContent }) => textContent.includes(texts.screens.draw.whatElse))?.click() // prettier-ignore
        sheets_n++
      })
    }
    expect(states.length).toBeGreaterThan(150)
    expect(sheets_n).toBeGreaterThan(0)
    expect(said).toEqual([])
  })

  it('so no list of a screen is keyed by what it says', () => {
    const UI = 'src/ui'
    const files = readdirSync(UI, { recursive: true, encoding: 'utf8' })
    const keyed = files.filter(
      (file) =>
        file.endsWith('.tsx') &&
        /key=\{(\w+\.)?(text|line|point|label|title|reason|warning|sign|signal|sentence)\}/.test(
          readFileSync(join(UI, file), 'utf8'),
        ),
    )
    expect(keyed).toEqual([])
  })
})
