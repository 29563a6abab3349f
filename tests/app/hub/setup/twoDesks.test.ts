import { describe, expect, it, vi } from 'vitest'
import { SOON } from '../../../support/joinRig.ts'
import {
  asMember,
  asked,
  DESK_FILE,
  founded,
  idOf,
  invited,
  letIn,
  namesOf,
  toldOf,
  type SetupPage,
  type SetupRig,
} from '../../../support/setupRig.ts'

describe('two desks', () => {
  const two = async () => {
    const each = await founded()
    const second = await letIn(each.desk, await each.page(), 'Desk 2')
    await each.desk.setup.acts.makeDesk(idOf(second))
    await vi.waitFor(() => {
      expect(asMember(second)).toMatchObject({ isDesk: true, hasDeskFile: true, hasNewPass: true })
    }, SOON)
    return { ...each, second }
  }

  it('a member becomes one: it has the desk file, sealed for it alone, and a pass for more', async () => {
    const { desk, second, page } = await two()
    expect(await second.of.secrets.read('desk')).toBe(DESK_FILE)
    expect(JSON.parse(second.member()?.pass().jwt ?? '{}')).toMatchObject({ isDesk: true })
    expect(toldOf(desk)).toEqual({ kind: 'done', act: 'makeDesk', device: 'Desk 2' })
    second.setup.acts.beginAnew()
    expect(second.reloads()).toBe(2)
    await second.close()
    const again = await setupAgain(second, page)
    await letIn(again, await page(), 'Chair 3')
    await vi.waitFor(() => expect(namesOf(desk)).toContain('Chair 3'), SOON)
  })

  const setupAgain = async (second: SetupPage, page: SetupRig['page']) => {
    const again = await page(Promise.resolve(second.of))
    await vi.waitFor(() => expect(again.hub().state().kind).toBe('connected'), SOON)
    await vi.waitFor(() => expect(asMember(again).hasDeskFile).toBe(true), SOON)
    return again
  }

  it('the desk file of the one does not open at a third device', async () => {
    const { desk, second, page } = await two()
    const chair = await letIn(desk, await page(), 'Chair 3')
    const value = await desk.hub().keys.get(`site/desk/${idOf(second)}`)
    const { body } = JSON.parse(new TextDecoder().decode(value?.bytes)) as { body: string }
    expect(new TextDecoder().decode(value?.bytes)).not.toContain(DESK_FILE)
    // In the place of the chair's own it opens as little.
    await desk.hub().keys.put(`site/desk/${idOf(chair)}`, new TextEncoder().encode(body), 0)
    await new Promise((done) => setTimeout(done, 100))
    expect(await chair.of.secrets.read('desk')).toBeUndefined()
  })

  it('inviting at once: the later code counts, and the other desk is told whose', async () => {
    const { desk, second, page } = await two()
    const first = await invited(desk)
    const later = await invited(second)
    await vi.waitFor(() => expect(asMember(desk).invitedAt).toBe('Desk 2'), SOON)
    expect(asMember(desk).invitation?.isOpen).toBe(false)
    const chair = await page()
    await chair.setup.acts.join(first, 'Chair 3')
    expect(toldOf(chair)).toMatchObject({ kind: 'joinRefused' })
    const joined = chair.setup.acts.join(later, 'Chair 3')
    await asked(second, 'Chair 3')
    await second.setup.acts.admit()
    await joined
    expect(asMember(chair).device).toBeTruthy()
    await invited(desk)
    expect(asMember(desk).invitedAt).toBeUndefined()
  })
})
