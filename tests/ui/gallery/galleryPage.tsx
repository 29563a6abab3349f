import { createRoot } from 'react-dom/client'
import { flushSync } from 'react-dom'
import type { AppState } from '../../../src/app/appApi.ts'
import { App } from '../../../src/ui/App.tsx'
import { fakeApp } from '../../support/fakeApp.ts'
import { SCENES } from '../../support/scenes.ts'
import { STATE } from '../../support/views.ts'
import { measured } from '../../screens/inPage/measured.ts'
import { forceTheme, type Theme } from './forceTheme.ts'
import type { GalleryState } from './galleryState.ts'
import { gallery } from './galleryStates.ts'

/**
 * Every state of the draw screen, and every other screen once, with invented content: for looking and measuring, not
 * for use. The address names what is shown: `#state=straight/14 band&theme=dark`, and with
 * `&narrow` only the straight ways are worked out, which is quick; arrow keys go on and back.
 */
const isNarrow = new URLSearchParams(location.hash.slice(1)).has('narrow')
const { states } = gallery(isNarrow)
const root = createRoot(document.getElementById('root')!)

function appState({ view, around }: GalleryState): Partial<AppState> {
  return {
    screen: { name: 'draw', drawId: view.drawId },
    draw: view,
    ...around,
    settings: { ...STATE.settings, ...around?.settings },
  }
}

/** Shows a state at once; the sheet over it as soon as the screen takes a press. */
async function show(name: string): Promise<void> {
  const state = states.find((each) => each.name === name)
  const scene = SCENES[name]
  if (!state && !scene) throw new Error(`The gallery has no ${name}.`)
  const port = fakeApp(state ? appState(state) : (scene ?? {}))
  flushSync(() => root.render(<App key={name} port={port} />))
  if (state?.sheet) await openSheet(name)
  window.scrollTo(0, 0)
  document.title = name
}

/** A press that is made too soon after a change is not taken. */
async function openSheet(name: string): Promise<void> {
  for (let presses = 0; presses < 20; presses++) {
    const more = document.querySelector<HTMLElement>('[data-place="more"], .choice.else')
    flushSync(() => more?.click())
    if (document.querySelector('[role="dialog"]')) return
    await new Promise((done) => setTimeout(done, 100))
  }
  throw new Error(`${name}: the sheet does not open.`)
}

const names = [...states.map(({ name }) => name), ...Object.keys(SCENES)]

function showAddress(): void {
  const asked = new URLSearchParams(location.hash.slice(1))
  forceTheme((asked.get('theme') ?? undefined) as Theme | undefined)
  const name = asked.get('state') ?? ''
  void show(names.includes(name) ? name : (names[0] ?? ''))
}

window.addEventListener('keydown', ({ key }) => {
  const by = key === 'ArrowRight' ? 1 : key === 'ArrowLeft' ? -1 : 0
  const next = names[names.indexOf(document.title) + by]
  if (by === 0 || next === undefined) return
  const asked = new URLSearchParams(location.hash.slice(1))
  asked.set('state', next)
  location.hash = asked.toString()
})
window.addEventListener('hashchange', showAddress)
showAddress()
Object.assign(window, {
  gallery: { names: states.map(({ name }) => name), show, theme: forceTheme, measured },
})
