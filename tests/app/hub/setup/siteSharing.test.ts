import { describe, expect, it, vi } from 'vitest'
import { putDeskValue } from '../../../../src/app/hub/setup/deskValues.ts'
import { sharedPlace } from '../../../../src/app/hub/setup/siteSharing.ts'
import { readSharedSite } from '../../../../src/app/hub/setup/sharedSite.ts'
import { SOON } from '../../../support/joinRig.ts'
import {
  asMember,
  founded,
  idOf,
  letIn,
  toldOf,
  type SetupPage,
} from '../../../support/setupRig.ts'

const LIMITS = '{"limits":"of the desk"}'

const clinic = async () => {
  const each = await founded()
  const chair = await letIn(each.desk, await each.page(), 'Chair 2')
  return { ...each, chair }
}
const write = ({ of }: SetupPage, what: string, text: string) => of.settingsStore.write(what, text)
const sharedBy = (page: SetupPage) =>
  new Map(asMember(page).shared.map(({ what, ...rest }) => [what, rest]))
const waitingAt = async ({ of }: SetupPage, what: string) =>
  (await readSharedSite(of.settingsStore))?.parts.find((part) => part.what === what)?.waiting
const signerOf = (page: SetupPage, device = idOf(page)) => ({
  ...{ hub: page.hub(), clinic: 'c1', device },
  sign: (text: string) => page.of.deviceKey.sign(text),
})

describe('what a desk gives to the clinic', () => {
  it('waits at every other device and changes nothing in use there', async () => {
    const { desk, chair } = await clinic()
    await write(desk, 'policy', LIMITS)
    await write(chair, 'policy', '{"limits":"of the chair"}')
    await desk.setup.acts.share()
    expect(toldOf(desk)).toEqual({ kind: 'done', act: 'share' })
    await vi.waitFor(() => {
      expect(sharedBy(chair).get('policy')).toEqual({
        ...{ edition: 1, by: idOf(desk), isWaiting: true, isChanged: false },
      })
      expect(sharedBy(chair).size).toBe(4)
    }, SOON)
    expect(await chair.of.settingsStore.read('policy')).toBe('{"limits":"of the chair"}')
    expect(await waitingAt(chair, 'policy')).toBe(LIMITS)
    // What is the same already waits for nothing.
    expect(sharedBy(chair).get('catalogue')?.isWaiting).toBe(false)
    expect(sharedBy(desk).get('policy')).toMatchObject({ edition: 1, isWaiting: false })
  })

  it('reaches a device that joins later, and is known there over a reload', async () => {
    const { desk, page } = await founded()
    await write(desk, 'policy', LIMITS)
    await desk.setup.acts.share()
    const chair = await letIn(desk, await page(), 'Chair 2')
    await vi.waitFor(() => expect(sharedBy(chair).get('policy')?.isWaiting).toBe(true), SOON)
    await chair.close()
    const again = await page(Promise.resolve(chair.of))
    await vi.waitFor(() => expect(sharedBy(again).get('policy')?.isWaiting).toBe(true), SOON)
  })

  it('counts one edition up each time; a device that has changed its own gets it again', async () => {
    const { desk, chair } = await clinic()
    await desk.setup.acts.share()
    await vi.waitFor(() => expect(sharedBy(chair).size).toBe(4), SOON)
    await write(chair, 'laboratories', '[]')
    await desk.setup.acts.share()
    await vi.waitFor(() => {
      expect(sharedBy(chair).get('laboratories')).toMatchObject({ edition: 2, isWaiting: true })
    }, SOON)
  })

  it('that a device has changed for itself since is told there as its own, until it is given anew', async () => {
    const { desk, chair, page } = await clinic()
    await write(desk, 'policy', LIMITS)
    await write(chair, 'policy', LIMITS)
    await desk.setup.acts.share()
    await vi.waitFor(() => expect(sharedBy(chair).size).toBe(4), SOON)
    expect(sharedBy(chair).get('policy')).toMatchObject({ isWaiting: false, isChanged: false })
    await chair.close()
    await write(chair, 'policy', '{"limits":"of the chair"}')
    // A stock is counted on by every draw.
    await write(chair, 'stock', '{"lots":[]}')
    const again = await page(Promise.resolve(chair.of))
    await vi.waitFor(() => {
      expect(sharedBy(again).get('policy')).toMatchObject({ edition: 1, isChanged: true })
    }, SOON)
    expect(sharedBy(again).get('catalogue')).toMatchObject({ isChanged: false })
    expect(sharedBy(again).get('stock')).toMatchObject({ isChanged: false })

    await desk.setup.acts.share()
    await vi.waitFor(() => {
      expect(sharedBy(again).get('policy')).toMatchObject({
        ...{ edition: 2, isWaiting: true, isChanged: false },
      })
    }, SOON)
    expect(await waitingAt(again, 'policy')).toBe(LIMITS)
  })

  it('is not covered by a desk that has not taken what another one gave', async () => {
    const { desk, chair } = await clinic()
    await desk.setup.acts.makeDesk(idOf(chair))
    await vi.waitFor(() => expect(asMember(chair).isDesk).toBe(true), SOON)
    await write(desk, 'policy', LIMITS)
    await desk.setup.acts.share()
    await vi.waitFor(() => expect(sharedBy(chair).get('policy')?.isWaiting).toBe(true), SOON)
    await chair.setup.acts.share()
    expect(toldOf(chair)).toEqual({ kind: 'shareStale' })
    expect(sharedBy(desk).get('policy')).toMatchObject({ edition: 1, by: idOf(desk) })
  })

  it('is taken from a desk only, of this clinic, in its own place, and never an earlier one', async () => {
    const { desk, chair } = await clinic()
    const place = sharedPlace('policy')
    await putDeskValue(signerOf(chair), place, 'a chair signs')
    await putDeskValue(signerOf(chair, idOf(desk)), place, 'a chair that says it is the desk')
    await putDeskValue({ ...signerOf(desk), clinic: 'c2' }, place, 'another clinic')
    await putDeskValue(signerOf(desk), `site/shared/money`, 'nothing that is shared')
    await new Promise((done) => setTimeout(done, 150))
    expect(sharedBy(chair).size).toBe(0)
    await putDeskValue(signerOf(desk), place, LIMITS)
    await vi.waitFor(() => expect(sharedBy(chair).get('policy')?.isWaiting).toBe(true), SOON)
    expect(await waitingAt(chair, 'policy')).toBe(LIMITS)
    const { edition } = sharedBy(chair).get('policy') ?? { edition: 0 }
    // The hub came back from an old copy: its edition is below the one that is known.
    expect(edition).toBeGreaterThan(1)
  })

  it('that cannot reach the hub is told, and given when it is there', async () => {
    const { server, desk } = await clinic()
    server.setUp(false)
    vi.useFakeTimers({ toFake: ['setTimeout'] })
    const first = desk.setup.acts.share()
    await vi.advanceTimersByTimeAsync(30_000)
    vi.useRealTimers()
    await first
    expect(toldOf(desk)).toMatchObject({ kind: 'failed', act: 'share' })
    server.setUp(true)
    await vi.waitFor(() => expect(desk.hub().state().kind).toBe('connected'), SOON)
    await desk.setup.acts.share()
    expect(toldOf(desk)).toEqual({ kind: 'done', act: 'share' })
  })
})
