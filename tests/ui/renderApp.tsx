import { cleanup, render } from '@testing-library/react'
import { afterEach } from 'vitest'
import type { AppState } from '../../src/app/appApi.ts'
import type { AppServices } from '../../src/app/appServices.ts'
import { App } from '../../src/ui/App.tsx'
import { fakeApp } from '../support/fakeApp.ts'

afterEach(cleanup)

/** The app on a screen with invented content; returns what it was asked to do. */
export function renderApp(change: Partial<AppState> = {}, services: Partial<AppServices> = {}) {
  const app = fakeApp(change, services)
  render(<App port={app} />)
  return app
}
