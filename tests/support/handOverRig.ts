import { createMemoryDrawLocks } from '../../src/adapters/lock/memoryDrawLocks.ts'
import { createMemoryHandOverStore } from '../../src/adapters/storage/handOverStore.ts'
import { createMemorySettingsStore } from '../../src/adapters/storage/memory.ts'
import type { AppDeps } from '../../src/app/appDeps.ts'
import { readHandOverLimits } from '../../src/app/site/handOverLimits.ts'
import type { RecordServerFile } from '../../src/app/site/recordServerFile.ts'
import type { AccessFault } from '../../src/core/handOver/accessFault.ts'
import type { ServerAnswer } from '../../src/core/handOver/serverAnswer.ts'
import limits from '../../src/data/handOver.json' with { type: 'json' }
import type { SimulatedClock } from '../../src/adapters/time/simulatedClock.ts'
import { ok } from '../../src/core/basics/result.ts'
import { appRig } from './appRig.ts'
import { fhirBehind, memoryRecordServer } from './fhirHttp.ts'
import { OPEN_SITE } from './fhirTransaction.ts'
import { shippedSite } from './site.ts'

const ADDRESS = 'https://fhir.example/r4'
const LIMITS = readHandOverLimits(limits)

/** What is done in the place of a request; `undefined` lets it go on to the server. */
export type Interference = (method: string, body: string) => Promise<ServerAnswer | undefined>

/** The parts of one device that outlive its pages, and a FHIR server of another maker. */
export function handOverDevice(file: RecordServerFile = { address: ADDRESS }) {
  const behind = fhirBehind()
  return {
    behind,
    file,
    locks: createMemoryDrawLocks(),
    handOver: createMemoryHandOverStore(),
    settings: createMemorySettingsStore(),
    /** Requests that came to the server, by method. */
    sent: [] as string[],
    interfere: (() => Promise.resolve(undefined)) as Interference,
    /** What the chart brought that the next page is opened from. */
    chart: undefined as { readonly patient?: string; readonly fault?: AccessFault } | undefined,
    /** After the server has done it: what the device hears of it. */
    lose: undefined as ServerAnswer | undefined,
  }
}
export type HandOverDevice = ReturnType<typeof handOverDevice>

/** A page of that device: the whole app, with hand-over to the server. */
export function handOverPage(
  device: HandOverDevice,
  change: Partial<AppDeps> = {},
  clock?: SimulatedClock,
) {
  const deps: Partial<AppDeps> = {
    site: { ...shippedSite, recordSystems: OPEN_SITE },
    settingsStore: device.settings,
    drawLock: device.locks(),
    handOver: {
      store: device.handOver,
      limits: LIMITS,
      find: () => Promise.resolve(ok(device.file)),
      isLaunched: device.chart !== undefined,
      connect: (file) => {
        const server = memoryRecordServer(device.behind, file.address)
        const through = async (
          method: string,
          body: string,
          go: () => Promise<ServerAnswer>,
        ): Promise<ServerAnswer> => {
          device.sent.push(method)
          const instead = await device.interfere(method, body)
          if (instead) return instead
          const answer = await go()
          return device.lose ?? answer
        }
        return Promise.resolve({
          server: {
            address: file.address,
            transact: (text) => through('transact', text, () => server.transact(text)),
            put: (search, text) => through('put', text, () => server.put(search, text)),
            search: (query) => through('search', query, () => server.search(query)),
          },
          takePatient: () => {
            const patient = device.chart?.patient
            device.chart = undefined
            return patient
          },
          launchFault: device.chart?.fault,
          isLeaving: false,
          publicKeys: () => Promise.resolve(undefined),
        })
      },
    },
    ...change,
  }
  const rig = appRig(deps, clock)
  const view = () => rig.state().handOver
  return {
    ...rig,
    view,
    /** Rows by what they are about and how they stand. */
    rows: () => view().rows.map(({ about, state }) => `${about} ${state}`),
    /** A draw of a patient from its beginning to its close. */
    async drawn(n: number, draft: Parameters<typeof rig.begin>[0] = {}): Promise<string> {
      const drawId = await rig.begin({ recordNumber: `MRN-${n}`, orderNumber: `O-${n}`, ...draft })
      await rig.follow('closed')
      await rig.settle()
      return drawId
    },
    /** Lets everything come to its end that needs no time. */
    async rest(): Promise<void> {
      for (let i = 0; i < 25; i++) await rig.settle()
    },
  }
}

/** A page that is on, on a device of its own. */
export async function on(device = handOverDevice()) {
  const page = handOverPage(device)
  await page.app.start()
  await page.rest()
  await page.actions.handOver.switchOn()
  await page.rest()
  return { device, page }
}

/** Until the queue has come to rest, letting time pass where it waits. */
export async function passing(page: ReturnType<typeof handOverPage>, s: number): Promise<void> {
  const step_s = s > 40 ? 10 : 1
  for (let i = 0; i < s; i += step_s) {
    page.clock.advance(step_s * 1000)
    await page.rest()
  }
}
