import { useEffect, type ReactNode } from 'react'
import type { Screen } from '../app/appApi.ts'
import { AppContext, useApp, useServices } from './shared/appContext.tsx'
import type { AppPort } from './shared/appContext.tsx'
import { DrawScreen } from './draw/DrawScreen.tsx'
import { HomeScreen } from './home/HomeScreen.tsx'
import { OrderScreen } from './order/OrderScreen.tsx'
import { PlanScreen } from './plan/PlanScreen.tsx'
import { PracticeScreen } from './practice/PracticeScreen.tsx'
import { SettingsScreen } from './settings/SettingsScreen.tsx'
import './styles/tokens.css'
import './styles/base.css'
import './styles/frame.css'

/** Screens that take everything they show as props, put together where the app is wired. */
export type PropsScreens = Partial<
  Record<'chart' | 'labels' | 'catalogue' | 'micCheck', () => ReactNode>
>

interface AppProps {
  readonly port: AppPort
  readonly screens?: PropsScreens
  /** The panel that tries new phrases, in the settings. */
  readonly phraseCheck?: ReactNode
}

export function App({ port, screens = {}, phraseCheck }: AppProps) {
  return (
    <AppContext value={port}>
      <Screens screens={screens} phraseCheck={phraseCheck} />
    </AppContext>
  )
}

function Screens({ screens, phraseCheck }: { screens: PropsScreens; phraseCheck: ReactNode }) {
  const screen = useApp((s) => s.screen)
  // Each screen begins at its top, wherever the one before was left.
  useEffect(() => {
    void window.scrollTo(0, 0)
  }, [screen])
  const { practice } = useServices()
  const places = new Set<Screen>(['settings'])
  if (practice && practice.scenarios.length > 0) places.add('practice')
  for (const name of ['catalogue', 'micCheck'] as const) if (screens[name]) places.add(name)
  const home = <HomeScreen places={places} />
  switch (screen) {
    case 'home':
      return home
    case 'order':
      return <OrderScreen />
    case 'plan':
      return <PlanScreen />
    case 'draw':
      return <DrawScreen />
    case 'settings':
      return <SettingsScreen phraseCheck={phraseCheck} />
    case 'practice':
      return practice ? <PracticeScreen {...practice} /> : home
    case 'chart':
    case 'labels':
    case 'catalogue':
    case 'micCheck':
      return screens[screen]?.() ?? home
  }
}
