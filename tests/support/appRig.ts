import { createKeysSpeech } from '../../src/adapters/speech/keysSpeech.ts'
import { createMemoryDrawLocks } from '../../src/adapters/lock/memoryDrawLocks.ts'
import {
  createMemoryLogStore,
  createMemorySettingsStore,
} from '../../src/adapters/storage/memory.ts'
import { createMemoryDayStore } from '../../src/adapters/storage/dayStore.ts'
import { createMemoryRunningStore } from '../../src/adapters/storage/runningStore.ts'
import { createSimulatedClock } from '../../src/adapters/time/simulatedClock.ts'
import { createDirectJobs } from '../../src/adapters/jobs/directJobs.ts'
import { intakeHandlers } from '../../src/app/intake/intakeJobs.ts'
import type { AppDeps } from '../../src/app/appDeps.ts'
import { createApp } from '../../src/app/createApp.ts'
import type { OrderDraft } from '../../src/app/order/orderDraft.ts'
import type { Command, PlainCommand } from '../../src/core/protocol/commands.ts'
import type { StepId } from '../../src/core/protocol/steps.ts'
import type { DrawView } from '../../src/app/view/drawViewTypes.ts'
import type { CheckedLog } from '../../src/core/log/readStored.ts'
import storageTexts from '../../src/data/en/storage.json' with { type: 'json' }
import { fakePage } from './fakePage.ts'
import { fakeScreenWake } from './fakeScreenWake.ts'
import { fakeReader } from './fakeReader.ts'
import { fakeEarpiece } from './fakeEarpiece.ts'
import { fakeSound } from './fakeSound.ts'
import { fakeVersions } from './fakeVersions.ts'
import { nodeDeviceKey, nodeVerify } from './nodeSigning.ts'
import { quickVault } from './vaults.ts'
import { SAMPLE_START_ms, sha256 } from './sampleLog.ts'
import { shippedListening } from './shippedListening.ts'
import { LEAFLETS } from '../../src/data/languages.ts'
import { shippedSite } from './site.ts'

const simulatedStart = () =>
  createSimulatedClock({ boot: 'a', mono_ms: 0, wall_ms: SAMPLE_START_ms, offset_min: 60 })

/** The whole app on fakes: simulated time, a store in memory, nothing heard. Everything in it is invented. */
export function appRig(change: Partial<AppDeps> = {}, clock = simulatedStart()) {
  const deps: AppDeps = {
    clock,
    logStore: createMemoryLogStore(sha256),
    dayStore: createMemoryDayStore(sha256),
    settingsStore: createMemorySettingsStore(),
    drawLock: createMemoryDrawLocks()(),
    runningStore: createMemoryRunningStore(),
    vault: quickVault(),
    sealStored: async () => undefined,
    unsealStored: async () => undefined,
    sound: fakeSound(),
    earpiece: fakeEarpiece(),
    reader: fakeReader(),
    readers: { en: fakeReader(), es: fakeReader() },
    leaflets: LEAFLETS,
    hasVoice: true,
    screenWake: fakeScreenWake(),
    versions: fakeVersions(),
    makeSpeech: createKeysSpeech,
    listening: shippedListening,
    deviceKey: nodeDeviceKey(),
    sha256,
    jobs: createDirectJobs(intakeHandlers(sha256, nodeVerify)),
    page: fakePage(),
    site: shippedSite,
    storageTexts,
    scenarios: [],
    newDevicePrefix: () => 'KM47',
    drawLot: () => 1,
    ...change,
  }
  const app = createApp(deps)
  const { store, actions } = app
  const state = () => store.getState()
  /** Lets everything that is under way come to its end. */
  const settle = (): Promise<void> => new Promise((done) => setImmediate(done))
  const touch = (command: Command | PlainCommand): Promise<void> =>
    actions.command(typeof command === 'string' ? { type: command } : command, 'touch')

  return {
    app,
    actions,
    deps,
    clock,
    state,
    settle,
    touch,
    /** Lets simulated time pass and everything it wakes run. */
    async pass(s: number): Promise<void> {
      for (let i = 0; i < s * 5; i++) {
        clock.advance(200)
        await settle()
      }
    },
    /** Fills in the form and plans; the draw is not begun. */
    async plan(draft: Partial<OrderDraft> = {}): Promise<void> {
      const [givenNames = '', familyName = ''] = (draft.fullName ?? 'Anna First').split(' ')
      actions.newDraw()
      actions.sayWhoDraws({ name: 'Ada Sample', initials: 'AS', siteName: '' })
      actions.editDraft({
        familyName,
        givenNames,
        birthDate: '1980-05-31',
        recordNumber: 'MRN-A',
        orderNumber: 'O-1',
        tests: ['cbc'],
        ...draft,
      })
      actions.makePlan()
    },
    /** Begins a draw for an invented patient and answers its id. */
    async begin(draft: Partial<OrderDraft> = {}): Promise<string> {
      await this.plan(draft)
      await actions.openDraw()
      const { screen } = state()
      if (screen.name !== 'draw')
        throw new Error(`No draw was begun: ${JSON.stringify(state().draftErrors)}`)
      return screen.drawId
    },
    /** Confirms what the screen asks for, up to a step or to the end. */
    async follow(until: StepId | 'closed'): Promise<void> {
      for (let confirmed = 0; confirmed < 100; confirmed++) {
        const { draw } = state()
        if (!draw || draw.closed || draw.step.id === until) return
        await touch(nextOf(draw))
        await settle()
      }
      throw new Error(`The draw never came to "${until}".`)
    },
    /** Ends the draw that runs, as not drawn. */
    async close(): Promise<void> {
      await touch('endDraw')
      await touch('confirmYes')
      await settle()
    },
    /** What is stored of a draw. */
    async stored(drawId: string): Promise<CheckedLog> {
      const log = await deps.logStore.load(drawId)
      if (!log) throw new Error(`${drawId} is not stored.`)
      return log
    },
  }
}

function nextOf({ ask, step, choices }: DrawView): Command {
  if (ask) return ask.yes.command
  if (step.id === 'site') return { type: 'chooseArm', arm: 'left' }
  if (step.id === 'latex') return { type: 'latexNo' }
  if (step.id === 'fainted') return { type: 'faintedNo' }
  if (step.id === 'transfused') return { type: 'transfusedNo' }
  if (step.id === 'thinner') return { type: 'thinner', kind: 'none' }
  if (step.id === 'vein') return { type: 'chooseVein', vein: 'medianCubital' }
  const main = choices.find(({ place }) => place === 'main')
  if (!main) throw new Error(`Nothing can be confirmed at "${step.id}".`)
  return main.command
}

export type AppRig = ReturnType<typeof appRig>
