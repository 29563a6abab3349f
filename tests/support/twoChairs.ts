import { createMemoryClinic } from '../../src/adapters/hub/memory/memoryClinic.ts'
import { createSimulatedClock } from '../../src/adapters/time/simulatedClock.ts'
import { drawLogName } from '../../src/core/hub/logNames.ts'
import { checkLog } from '../../src/core/log/checkLog.ts'
import type { TrustedDevices } from '../../src/app/hub/envelopes.ts'
import { appRig, type AppRig } from './appRig.ts'
import { clinicDevice } from './clinicRig.ts'
import { quickEnvelopes } from './clinicTrust.ts'
import { SAMPLE_START_ms, sha256 } from './sampleLog.ts'

export type Chair = AppRig & { readonly device: ReturnType<typeof clinicDevice> }

/** Two tablets of one clinic with one clock for both, each on its own stores. */
export async function twoChairs(prefixOfB = 'BB33', trust?: TrustedDevices) {
  const clock = createSimulatedClock({
    boot: 'a',
    mono_ms: 0,
    wall_ms: SAMPLE_START_ms,
    offset_min: 60,
  })
  const hub = createMemoryClinic(clock)
  const chair = async (id: string, prefix: string, lot: number): Promise<Chair> => {
    const device = clinicDevice(id, hub.join(id), clock, trust)
    const { logStore, dayStore, clinic } = device
    let drawn = lot
    const rig = appRig(
      { logStore, dayStore, clinic, newDevicePrefix: () => prefix, drawLot: () => drawn++ },
      clock,
    )
    await rig.app.start()
    return { ...rig, device }
  }
  const a = await chair('a', 'AA22', 100)
  const b = await chair('b', prefixOfB, 900)
  await a.pass(5)
  return { a, b, hub, clock }
}

const ordered = {
  fullName: 'Anna First',
  recordNumber: 'MRN-A',
  orderNumber: 'O-1',
  tests: ['cbc'],
}

/** Lists an order on a device. */
export async function list(chair: Chair): Promise<string> {
  chair.actions.newDraw()
  chair.actions.sayWhoDraws({ name: 'Ada Sample', initials: 'AS', siteName: '' })
  chair.actions.editDraft({
    ...ordered,
    familyName: 'First',
    givenNames: 'Anna',
    birthDate: '1980-05-31',
  })
  await chair.actions.day.addDraft()
  await chair.pass(1)
  const [row] = chair.state().day.rows
  if (row?.kind !== 'orders')
    throw new Error(`Not listed: ${JSON.stringify(chair.state().draftErrors)}`)
  return row.group.ids[0] ?? ''
}

export const statusOn = (chair: Chair): string | undefined => {
  const { rows, done } = chair.state().day
  const groups = [...rows.flatMap((row) => (row.kind === 'orders' ? [row.group] : [])), ...done]
  return groups[0]?.status
}

/** What stands at the hub of a draw, checked as a record. */
export async function atHub(chair: Chair, drawId: string) {
  const entries = []
  const envelopes = quickEnvelopes('a')
  for (const entry of await chair.device.hub.read({ log: drawLogName(drawId) }, 0)) {
    const opened = await envelopes.open(entry)
    if (opened.kind === 'entry') entries.push(opened.content)
  }
  return checkLog({ format: 'stillhand-log', version: 1, drawId, entries }, sha256)
}
