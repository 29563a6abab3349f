import type { AppState } from '../../src/app/appApi.ts'
import { STOPPED_PLAN } from './plans.ts'
import * as views from './views.ts'

/** Every screen with invented content, by name. */
export const SCENES: Readonly<Record<string, Partial<AppState>>> = {
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
  planStopped: { screen: 'plan', plan: STOPPED_PLAN },
  filling: { screen: 'draw', draw: views.FILLING },
  identity: { screen: 'draw', draw: views.IDENTITY },
  over: { screen: 'draw', draw: views.OVER },
  severe: { screen: 'draw', draw: views.SEVERE },
  ask: { screen: 'draw', draw: views.ASK },
  labels: { screen: 'draw', draw: views.LABELS },
  closed: { screen: 'draw', draw: views.CLOSED },
  decision: { screen: 'draw', draw: views.DECISION },
  practice: { screen: 'practice' },
  settings: { screen: 'settings' },
}
