import { createRoot } from 'react-dom/client'
import type { AppState } from '../../src/app/appApi.ts'
import { App } from '../../src/ui/App.tsx'
import { fakeApp } from '../support/fakeApp.ts'
import * as views from '../support/views.ts'

/** Every screen with invented content, by name in the address: `gallery.html#severe`. For looking, not for use. */
const SCENES: Readonly<Record<string, Partial<AppState>>> = {
  home: {},
  trouble: { trouble: 'The record could not be saved: the device is out of space.' },
  order: { screen: 'order' },
  orderErrors: {
    screen: 'order',
    draft: { ...views.DRAFT, fullName: '', tests: [] },
    draftErrors: [
      { field: 'fullName', text: 'Give the patient’s full name.' },
      { field: 'tests', text: 'Add at least one test.' },
    ],
  },
  plan: { screen: 'plan' },
  planStopped: { screen: 'plan', plan: views.STOPPED_PLAN },
  filling: { screen: 'draw', draw: views.FILLING },
  identity: { screen: 'draw', draw: views.IDENTITY },
  over: { screen: 'draw', draw: views.OVER },
  severe: { screen: 'draw', draw: views.SEVERE },
  ask: { screen: 'draw', draw: views.ASK },
  labels: { screen: 'draw', draw: views.LABELS },
  closed: { screen: 'draw', draw: views.CLOSED },
  practice: { screen: 'practice' },
  settings: { screen: 'settings' },
}

const root = createRoot(document.getElementById('root')!)
function show(): void {
  const scene = location.hash.slice(1)
  root.render(<App key={scene} port={fakeApp(SCENES[scene] ?? {})} />)
}
window.addEventListener('hashchange', show)
show()
