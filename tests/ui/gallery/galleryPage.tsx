import { createRoot } from 'react-dom/client'
import { flushSync } from 'react-dom'
import type { AppState } from '../../../src/app/appApi.ts'
import type { Settings } from '../../../src/app/site/settings.ts'
// Loaded here, so that it is there at once when it is asked for.
import '../../../src/ui/clinic/ClinicScreen.tsx'
import '../../../src/ui/figures/FiguresScreen.tsx'
import { App } from '../../../src/ui/App.tsx'
import { DAY_SCENES } from '../../support/dayScenes.ts'
import { fakeApp } from '../../support/fakeApp.ts'
import { SCENES } from '../../support/scenes.ts'
import { STATE } from '../../support/views.ts'
import { testInfo } from '../../../src/app/record/testInfo.ts'
import { shippedSite } from '../../support/site.ts'
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

/** As the shipped catalog has them. */
const { testName } = testInfo(shippedSite.catalogue)

/** Each show begins anew: what was opened or typed in a scene is not there when it is shown again. */
let shows = 0

/** Shows a state at once; the sheet over it as soon as the screen takes a press. */
async function show(name: string, paper?: Settings['paper']): Promise<void> {
  const state = states.find((each) => each.name === name)
  const scene = SCENES[name]
  const ofDay = DAY_SCENES[name]?.()
  if (!state && !scene && !ofDay) throw new Error(`The gallery has no ${name}.`)
  const port = fakeApp(
    state ? appState(state) : (scene ?? ofDay?.state ?? {}),
    ofDay && { testName, ...ofDay.services },
  )
  if (paper) port.store.setState((s) => ({ settings: { ...s.settings, paper } }))
  flushSync(() => root.render(<App key={`${name} ${(shows += 1)}`} port={port} />))
  if (state?.sheet) await openSheet(name, state.sheet)
  if (ofDay) await come(name, ofDay.press ?? [])
  window.scrollTo(0, 0)
  document.title = name
}

/** A press that is made too soon after a change is not taken. */
async function openSheet(name: string, part: true | string): Promise<void> {
  for (let presses = 0; presses < 20; presses++) {
    const more = document.querySelector<HTMLElement>('[data-place="more"], .choice.else')
    flushSync(() => more?.click())
    if (document.querySelector('[role="dialog"]')) {
      if (part !== true) document.querySelector(part)?.scrollIntoView({ block: 'start' })
      return
    }
    await new Promise((done) => setTimeout(done, 100))
  }
  throw new Error(`${name}: the sheet does not open.`)
}

/** A screen that comes late is waited for, then what leads to the scene is pressed. */
async function come(name: string, presses: readonly string[]): Promise<void> {
  for (const selector of ['main', ...presses, 'main']) {
    const found = await until(() => document.querySelector<HTMLElement>(selector), name, selector)
    if (selector !== 'main') flushSync(() => found.click())
  }
  // What comes in parts, or later than the rest, has come when the page no longer grows.
  let high = -1
  let still_n = 0
  await until(
    () => {
      const { scrollHeight } = document.documentElement
      still_n = scrollHeight === high ? still_n + 1 : 0
      high = scrollHeight
      return still_n >= 3
    },
    name,
    'end of its growth',
  )
}

async function until<T>(look: () => T | null | false, name: string, what: string): Promise<T> {
  for (let tries = 0; tries < 200; tries++) {
    const found = look()
    if (found !== null && found !== false) return found
    await new Promise((done) => setTimeout(done, 50))
  }
  throw new Error(`${name}: no ${what}.`)
}

const scenes = Object.keys(DAY_SCENES)
const names = [...states.map(({ name }) => name), ...Object.keys(SCENES), ...scenes]

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
  gallery: { names: states.map(({ name }) => name), scenes, show, theme: forceTheme, measured },
})
