import { createRoot } from 'react-dom/client'
import { App } from '../../src/ui/App.tsx'
import { fakeApp } from '../support/fakeApp.ts'
import { SCENES } from '../support/scenes.ts'

/** Every screen with invented content, by name in the address: `gallery.html#severe`. For looking, not for use. */
const root = createRoot(document.getElementById('root')!)
function show(): void {
  const scene = location.hash.slice(1)
  root.render(<App key={scene} port={fakeApp(SCENES[scene] ?? {})} />)
}
window.addEventListener('hashchange', show)
show()
