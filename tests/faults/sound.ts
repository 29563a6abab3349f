import { GOES_ON } from './drive.ts'
import type { BrowserContext } from 'playwright-core'
import { bandFault } from './bandFault.ts'
import type { Fault } from './fault.ts'
import { alarmOnScreen, confirm, inTools } from './trial.ts'

const family = 'sound'
const SILENT = /^Alarms (are|may be) silent/

const without = (path: string) => (context: BrowserContext) =>
  context.route(path, (route) => route.abort())

export const SOUND_FAULTS: readonly Fault[] = [
  bandFault(family, {
    id: 'soundSuspended',
    did: 'The audio context is suspended, as a call on the device does (real: AudioContext.suspend).',
    inject: async (trial) => {
      await inTools(trial.page, (tools) =>
        Promise.all(tools.contexts.map((each) => each.suspend())),
      )
      await confirm(trial)
    },
    sees: GOES_ON,
  }),
  bandFault(family, {
    id: 'soundHeldBack',
    did: 'The audio context is suspended and the browser does not let it go on (injected: AudioContext.resume never ends).',
    inject: async (trial) => {
      await inTools(trial.page, (tools) => {
        AudioContext.prototype.resume = () => new Promise(() => undefined)
        return Promise.all(tools.contexts.map((each) => each.suspend()))
      })
    },
    sees: SILENT,
    alarm: alarmOnScreen,
  }),
  bandFault(family, {
    id: 'soundClosed',
    did: 'The audio context is closed for good (real: AudioContext.close).',
    inject: async (trial) => {
      await inTools(trial.page, (tools) => Promise.all(tools.contexts.map((each) => each.close())))
      await confirm(trial)
    },
    sees: GOES_ON,
  }),
  bandFault(family, {
    id: 'chimesMissing',
    did: 'No alarm sound can be loaded from the first visit on (real: the requests fail).',
    options: { prepare: without('**/chimes/**') },
    inject: () => Promise.resolve(),
    sees: SILENT,
    alarm: alarmOnScreen,
  }),
  bandFault(family, {
    id: 'chimesMissingAtFirst',
    did: 'The same, until the band goes on; they are then to be had again (real).',
    options: { prepare: without('**/chimes/**') },
    inject: (trial) => trial.context.unroute('**/chimes/**'),
    sees: SILENT,
  }),
  bandFault(family, {
    id: 'promptsMissing',
    did: 'No spoken prompt can be loaded (real: the requests fail).',
    options: { prepare: without('**/prompts/**') },
    inject: () => Promise.resolve(),
    sees: /^Spoken prompts cannot be loaded/,
  }),
]
