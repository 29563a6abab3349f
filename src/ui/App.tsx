import { lazy, Suspense, useEffect } from 'react'
import { AppContext, useApp, useServices } from './shared/appContext.tsx'
import type { AppPort } from './shared/appContext.tsx'
import { BenchScreen } from './bench/BenchScreen.tsx'
import { CatalogueScreen } from './catalogue/CatalogueScreen.tsx'
import { ClinicWait } from './clinic/ClinicWait.tsx'
import { ChartScreen } from './chart/ChartScreen.tsx'
import { ExposureScreen } from './chart/ExposureScreen.tsx'
import { CourierScreen } from './courier/CourierScreen.tsx'
import { DrawScreen } from './draw/DrawScreen.tsx'
import { WaitScreen } from './figures/WaitScreen.tsx'
import { HomeScreen } from './home/HomeScreen.tsx'
import { LabelsScreen } from './labels/LabelsScreen.tsx'
import { LockGate } from './lock/LockGate.tsx'
import { MicCheckScreen } from './micCheck/MicCheckScreen.tsx'
import { OrderScreen } from './order/OrderScreen.tsx'
import { PlanScreen } from './plan/PlanScreen.tsx'
import { PracticeScreen } from './practice/PracticeScreen.tsx'
import { ScoreScreen } from './practice/ScoreScreen.tsx'
import { BrokenScreen } from './shared/BrokenScreen.tsx'
import { ErrorBoundary } from './shared/ErrorBoundary.tsx'
import { SettingsScreen } from './settings/SettingsScreen.tsx'
import { ScanGuard } from './shared/ScanGuard.tsx'
import './styles/tokens.css'
import './styles/base.css'
import './styles/frame.css'

export function App({ port }: { readonly port: AppPort }) {
  return (
    <AppContext value={port}>
      <ScanGuard />
      <LockGate>
        <Guarded />
      </LockGate>
    </AppContext>
  )
}

/** A screen that breaks is left behind with the next one. */
function Guarded() {
  const screen = useApp((s) => s.screen)
  const key = 'drawId' in screen ? `${screen.name} ${screen.drawId}` : screen.name
  return (
    <ErrorBoundary key={key} instead={(why, retry) => <BrokenScreen why={why} onRetry={retry} />}>
      <CurrentScreen />
    </ErrorBoundary>
  )
}

/** Few look at it: no part of the first screen. */
const HandOverScreen = lazy(async () => ({
  default: (await import('./handOver/HandOverScreen.tsx')).HandOverScreen,
}))

/** Drawn figures are asked for seldom: their library is no part of the first screen. */
const FiguresScreen = lazy(async () => ({
  default: (await import('./figures/FiguresScreen.tsx')).FiguresScreen,
}))

/** Most devices belong to no clinic. */
const ClinicScreen = lazy(async () => ({
  default: (await import('./clinic/ClinicScreen.tsx')).ClinicScreen,
}))

function CurrentScreen() {
  const screen = useApp((s) => s.screen)
  const { figures, handOver } = useServices().site.texts
  // Each screen begins at its top, wherever the one before was left.
  useEffect(() => {
    void window.scrollTo(0, 0)
  }, [screen])
  switch (screen.name) {
    case 'home':
      return <HomeScreen />
    case 'order':
      return <OrderScreen />
    case 'plan':
      return <PlanScreen />
    case 'draw':
      return <DrawScreen drawId={screen.drawId} />
    case 'chart':
      return <ChartScreen drawId={screen.drawId} />
    case 'exposure':
      return <ExposureScreen drawId={screen.drawId} />
    case 'score':
      return <ScoreScreen drawId={screen.drawId} />
    case 'labels':
      return <LabelsScreen drawId={screen.drawId} from={screen.from} />
    case 'settings':
      return <SettingsScreen />
    case 'bench':
      return <BenchScreen />
    case 'practice':
      return <PracticeScreen />
    case 'figures':
      return (
        <Suspense fallback={<WaitScreen title={figures.title} text={figures.wait} />}>
          <FiguresScreen />
        </Suspense>
      )
    case 'clinic':
      return (
        <Suspense fallback={<ClinicWait />}>
          <ClinicScreen />
        </Suspense>
      )
    case 'handOver':
      return (
        <Suspense fallback={<WaitScreen title={handOver.title} text={figures.wait} />}>
          <HandOverScreen />
        </Suspense>
      )
    case 'courier':
      return <CourierScreen />
    case 'catalogue':
      return <CatalogueScreen />
    case 'micCheck':
      return <MicCheckScreen />
  }
}
