import { describe, expect, it, vi } from 'vitest'
import { putDeskValue } from '../../../../src/app/hub/setup/deskValues.ts'
import { isBetterPass, passPlace, renewPasses } from '../../../../src/app/hub/setup/passes.ts'
import { joinClock, SOON } from '../../../support/joinRig.ts'
import { asMember, DESK_FILE, founded, idOf, letIn, openRights } from '../../../support/setupRig.ts'

const DAY_ms = 86_400_000
const endsOf = (jwt: string) => (JSON.parse(jwt) as { ends_ms?: number }).ends_ms
const later = (days: number) => joinClock.read().wall_ms + days * DAY_ms

const clinic = async () => {
  const each = await founded()
  const chair = await letIn(each.desk, await each.page(), 'Chair 2')
  const signer = {
    ...{ hub: each.desk.hub(), clinic: 'c1', device: idOf(each.desk) },
    sign: (text: string) => each.desk.of.deviceKey.sign(text),
  }
  const passOf = () => chair.member()?.pass().jwt ?? ''
  return { ...each, chair, signer, passOf }
}
/** A desk whose clock says that so many days have passed. */
const renewAfter = async ({ desk, signer }: Awaited<ReturnType<typeof clinic>>, days: number) =>
  renewPasses(
    {
      ...{ ...signer, deskFile: DESK_FILE, passEnds_ms: endsOf },
      rights: openRights(() => later(days)),
    },
    { ...rosterOf(desk) },
    later(days),
  )
const rosterOf = (desk: Awaited<ReturnType<typeof clinic>>['desk']) => {
  const roster = desk.member()?.book.roster()
  if (!roster) throw new Error('No member')
  return roster
}

describe('passes that end', () => {
  it('are renewed sixty days before, once, and each device takes its own', async () => {
    const each = await clinic()
    const [desk, chair] = [idOf(each.desk), idOf(each.chair)]
    // Their clinic was founded a moment ago by the clock of this test.
    const since_ms = rosterOf(each.desk).devices[1]?.since_ms ?? 0
    expect(Math.abs(since_ms - joinClock.read().wall_ms)).toBeLessThan(60_000)
    expect(await renewAfter(each, 300)).toEqual([])
    expect([...(await renewAfter(each, 306))].sort()).toEqual([desk, chair].sort())
    await vi.waitFor(() => expect(endsOf(each.passOf())).toBeGreaterThan(later(660)), SOON)
    expect(await renewAfter(each, 310)).toEqual([])
    expect(asMember(each.chair).passEnds_ms).toBe(endsOf(each.passOf()))
    // What was cut off is renewed no more.
    await each.desk.setup.acts.revoke(chair)
    expect(await renewAfter(each, 660)).toEqual([desk])
  })

  it('are taken from a desk only, under their own place, and never an earlier one', async () => {
    const each = await clinic()
    const before = each.passOf()
    const place = passPlace(idOf(each.chair))
    const start_ms = later(0)
    const pass = (days: number) => JSON.stringify({ ends_ms: start_ms + days * DAY_ms })
    // A chair that can write there: its signature counts for nothing.
    const forger = {
      ...{ hub: each.chair.hub(), clinic: 'c1', device: idOf(each.chair) },
      sign: (text: string) => each.chair.of.deviceKey.sign(text),
    }
    await putDeskValue(forger, place, pass(900))
    await putDeskValue({ ...forger, device: idOf(each.desk) }, place, pass(900))
    await putDeskValue({ ...each.signer, clinic: 'c2' }, place, pass(900))
    await putDeskValue(each.signer, place, pass(200))
    await putDeskValue(each.signer, place, 'no pass')
    await new Promise((done) => setTimeout(done, 150))
    expect(each.passOf()).toBe(before)
    await putDeskValue(each.signer, place, pass(500))
    await vi.waitFor(() => expect(each.passOf()).toBe(pass(500)), SOON)
  })

  it('that have ended are signed anew by a desk for itself, without the hub', async () => {
    const server = await founded()
    const { desk, page } = server
    const pass = JSON.parse(desk.member()?.pass().jwt ?? '{}') as object
    await desk.member()?.keepPass(JSON.stringify({ ...pass, ends_ms: later(-3) }))
    await desk.close()
    server.server.setUp(false)
    const again = await page(Promise.resolve(desk.of))
    await vi.waitFor(() => expect(asMember(again).passEnds_ms).toBeGreaterThan(later(300)), SOON)
    expect(JSON.parse(again.member()?.pass().jwt ?? '{}')).toMatchObject({ isDesk: true })
  })

  it.each([
    [undefined, false],
    [-3 * DAY_ms, false],
    [-DAY_ms, true],
    [DAY_ms, true],
  ])('one that ends %s ms later than the present one is better: %s', (by_ms, is) => {
    const ends = (jwt: string) => (jwt === 'now' ? 1e12 : by_ms && 1e12 + by_ms)
    expect(isBetterPass('next', 'now', ends)).toBe(is)
  })
})
