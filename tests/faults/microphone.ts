import type { BrowserContext } from 'playwright-core'
import { bandFault } from './bandFault.ts'
import type { Fault } from './fault.ts'
import { confirm, inTools, type Trial } from './trial.ts'

const family = 'microphone'
const options = { voice: true } as const
const LISTENING = /^listening/i

const listens = ({ page }: Trial): Promise<void> =>
  page.locator('.listening.listening').waitFor({ timeout: 90_000 })

/** Once it has been heard, so that what follows is the fault and not the start. */
const onceItListens = (work: (trial: Trial) => Promise<unknown>) => async (trial: Trial) => {
  await listens(trial)
  const since_ms = Date.now()
  await work(trial)
  return { since_ms }
}

const routed = (path: string, answer: 'abort' | 'damaged') => (context: BrowserContext) =>
  context.route(path, (route) =>
    answer === 'abort' ? route.abort() : route.fulfill({ body: 'not what it should be' }),
  )

export const MICROPHONE_FAULTS: readonly Fault[] = [
  bandFault(family, {
    id: 'microphoneOut',
    did: 'The microphone is pulled out (injected: its track ends, and getUserMedia finds none).',
    options,
    inject: onceItListens((trial) =>
      inTools(trial.page, (tools) => {
        const none = new DOMException('as the test asked', 'NotFoundError')
        navigator.mediaDevices.getUserMedia = () => Promise.reject(none)
        for (const track of tools.tracks) {
          track.stop()
          track.dispatchEvent(new Event('ended'))
        }
      }),
    ),
    sees: /microphone is gone/,
  }),
  bandFault(family, {
    id: 'microphoneMuted',
    did: 'The microphone is muted at the device (injected: the track says so).',
    options,
    inject: onceItListens((trial) =>
      inTools(trial.page, (tools) => {
        for (const track of tools.tracks) track.dispatchEvent(new Event('mute'))
      }),
    ),
    sees: /microphone is muted/,
  }),
  bandFault(family, {
    id: 'microphoneSilent',
    did: 'The microphone gives digital silence (real: the track is not enabled).',
    options,
    inject: onceItListens((trial) =>
      inTools(trial.page, (tools) => {
        for (const track of tools.tracks) track.enabled = false
      }),
    ),
    sees: /microphone is muted/,
  }),
  bandFault(family, {
    id: 'microphoneRefused',
    did: 'The browser does not allow the microphone (real: no permission).',
    options: { ...options, microphone: 'notAllowed' },
    inject: () => Promise.resolve(),
    sees: /microphone is not allowed/,
  }),
  bandFault(family, {
    id: 'microphoneAllowedLater',
    did: 'The same, and it is allowed in mid-draw (real: Browser.grantPermissions).',
    options: { ...options, microphone: 'notAllowed' },
    inject: async (trial) => {
      await trial.page.getByText('microphone is not allowed').waitFor()
      // The recognizer itself is there by then, so that only the microphone is waited for.
      await trial.page.waitForTimeout(8000)
      const since_ms = Date.now()
      await trial.context.grantPermissions(['microphone'])
      return { since_ms }
    },
    sees: LISTENING,
  }),
  bandFault(family, {
    id: 'permissionRevoked',
    did: 'The permission is taken back in mid-draw (real: Browser.resetPermissions; the end of the track is injected).',
    options,
    inject: onceItListens(async (trial) => {
      await trial.context.clearPermissions()
      await inTools(trial.page, (tools) => {
        for (const track of tools.tracks) {
          track.stop()
          track.dispatchEvent(new Event('ended'))
        }
      })
    }),
    sees: /microphone is not allowed/,
  }),
  bandFault(family, {
    id: 'recognizerKilled',
    did: 'The recognizer’s worker ends in mid-draw (real: Worker.terminate).',
    options,
    inject: onceItListens((trial) =>
      inTools(trial.page, (tools) => {
        const recognizers = tools.workers.filter(({ url }) => url.includes('vosk'))
        if (recognizers.length === 0) throw new Error('There is no worker of the recognizer.')
        recognizers.forEach(({ worker }) => worker.terminate())
      }),
    ),
    sees: /recognizer stopped|microphone/,
  }),
  bandFault(family, {
    id: 'modelMissing',
    did: 'The speech model cannot be loaded (real: the request fails).',
    options: { ...options, prepare: routed('**/models/**', 'abort') },
    inject: () => Promise.resolve(),
    sees: /speech model (cannot be loaded|file)/,
  }),
  bandFault(family, {
    id: 'modelDamaged',
    did: 'The speech model’s file is not the one it should be (real: the server sends other bytes).',
    options: { ...options, prepare: routed('**/models/**', 'damaged') },
    inject: async (trial) => void (await confirm(trial)),
    sees: /speech model (cannot be loaded|file)/,
  }),
]
