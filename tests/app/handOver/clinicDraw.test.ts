import { describe, expect, it } from 'vitest'
import { createMemoryClinic } from '../../../src/adapters/hub/memory/memoryClinic.ts'
import { createSimulatedClock } from '../../../src/adapters/time/simulatedClock.ts'
import { clinicDevice } from '../../support/clinicRig.ts'
import { handOverDevice, handOverPage } from '../../support/handOverRig.ts'
import { SAMPLE_START_ms } from '../../support/sampleLog.ts'

/** Two tablets of one clinic, each with hand-over to a server of its own so that it can be told who sent what. */
async function twoThatHandOver() {
  const start = { boot: 'a', mono_ms: 0, wall_ms: SAMPLE_START_ms, offset_min: 60 }
  const clock = createSimulatedClock(start)
  const hub = createMemoryClinic(clock)
  const chair = async (id: string, prefix: string) => {
    const { logStore, dayStore, clinic } = clinicDevice(id, hub.join(id), clock)
    const device = handOverDevice()
    const deps = { logStore, dayStore, clinic, newDevicePrefix: () => prefix }
    const page = handOverPage(device, deps, clock)
    await page.app.start()
    await page.actions.handOver.switchOn()
    await page.rest()
    page.actions.sayWhoDraws({ name: `Nurse ${id}`, initials: id.toUpperCase(), siteName: '' })
    return { ...page, device }
  }
  return { a: await chair('a', 'AA22'), b: await chair('b', 'BB33'), hub }
}

describe('a draw that another chair has taken over', () => {
  // Common practice, no source: what the first chair recorded behind the hand-over is in no record.
  it('is handed over by that chair, and never by the one that closed it alone behind the hand-over', async () => {
    const { a, b, hub } = await twoThatHandOver()
    const drawId = await a.begin({ recordNumber: 'MRN-1', orderNumber: 'O-1' })
    await a.follow('cleanse')
    await a.pass(4)
    hub.refuse('a', 'credentials')
    await b.actions.go({ name: 'draw', drawId })
    await b.actions.takeOver()
    // Nothing leaves a for as long as it is paused; it closes the draw by itself.
    await a.actions.handOver.pause(true)
    await a.follow('closed')
    await b.follow('closed')
    await b.pass(8)
    hub.refuse('a', undefined)
    await a.pass(8)
    expect(a.state().clinic?.aside).toMatchObject([{ drawId, writer: 'B' }])
    await a.actions.handOver.pause(false)
    await a.pass(20)
    await b.pass(20)
    expect(b.rows()).toEqual([`${drawId} handedOver`])
    expect(a.device.sent).toEqual([])
  })
})
