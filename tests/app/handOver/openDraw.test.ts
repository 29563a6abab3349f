import { describe, expect, it } from 'vitest'
import { handOverDevice, handOverPage, on, passing } from '../../support/handOverRig.ts'

// Common practice, no source: what is not closed has no end yet, and what it says of its tubes may still change.
describe('a draw that was left open', () => {
  it('does not go at any later start, and goes by itself once it is closed', async () => {
    const { page, device } = await on()
    const drawId = await page.begin({ recordNumber: 'MRN-1', orderNumber: 'O-1' })
    await page.follow('bleeding')
    await passing(page, 2)
    const { logStore } = page.deps
    device.locks = handOverDevice().locks
    const later = handOverPage(device, { logStore })
    await later.app.start()
    await passing(later, 60)
    await later.actions.handOver.againAll()
    await later.actions.handOver.sendEarlier()
    later.actions.handOver.sendNow()
    await passing(later, 2)
    expect([device.sent, later.view().rows]).toEqual([[], []])
    await later.actions.go({ name: 'draw', drawId })
    await later.follow('closed')
    await passing(later, 2)
    expect(device.sent).toEqual(['transact'])
    expect(later.rows()).toEqual([`${drawId} handedOver`])
  })
})
