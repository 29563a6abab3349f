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
  setupRig,
  toldOf,
} from '../../../support/setupRig.ts'

describe('founding the clinic', () => {
  it('makes this device its desk, keeps the desk file sealed and begins anew', async () => {
    const { desk } = await founded()
    expect(namesOf(desk)).toEqual(['Front desk'])
    expect(await desk.of.secrets.read('desk')).toBe(DESK_FILE)
    expect([desk.reloads(), toldOf(desk)]).toEqual([1, { kind: 'done', act: 'found' }])
  })

  it.each([
    ['', 'Desk', { kind: 'noDeskFile' }],
    ['{"clinic":"c1"}', 'Desk', { kind: 'noDeskFile' }],
    ['desk of c2', 'Desk', { kind: 'otherDeskFile', clinic: 'c2' }],
    [DESK_FILE, ' ', { kind: 'badName' }],
    [DESK_FILE, 'x'.repeat(41), { kind: 'badName' }],
    [DESK_FILE, 'De\u202Esk', { kind: 'badName' }],
  ])('is refused with %j as %j', async (file, name, told) => {
    const { desk } = await setupRig()
    await desk.setup.acts.found(file, name)
    expect(toldOf(desk)).toEqual(told)
    expect(desk.setup.view().kind).toBe('none')
    expect(await desk.of.secrets.read('desk')).toBeUndefined()
  })

  it('founds nothing without the hub, and does when it is there', async () => {
    const { server, desk } = await setupRig()
    server.setUp(false)
    vi.useFakeTimers({ toFake: ['setTimeout'] })
    const first = desk.setup.acts.found(DESK_FILE, 'Desk')
    await vi.advanceTimersByTimeAsync(20_000)
    vi.useRealTimers()
    await first
    expect(toldOf(desk)).toEqual({ kind: 'failed', act: 'found', fault: 'unreachable' })
    expect(await desk.of.secrets.read('pass')).toBeUndefined()
    server.setUp(true)
    await desk.setup.acts.found(DESK_FILE, 'Desk')
    expect(namesOf(desk)).toEqual(['Desk'])
  })

  it('of two first desks makes one; the other keeps nothing and is told', async () => {
    const { desk, page } = await founded()
    const other = await page()
    await other.setup.acts.found(DESK_FILE, 'Other desk')
    expect(toldOf(other)).toEqual({ kind: 'foundedAlready' })
    expect(other.setup.view().kind).toBe('none')
    expect(await other.of.secrets.read('desk')).toBeUndefined()
    expect(namesOf(desk)).toEqual(['Front desk'])
  })

  it('over a lost answer founds once, when the same is asked again', async () => {
    const { server, desk, page } = await setupRig()
    server.loseAnswers(1)
    await desk.setup.acts.found(DESK_FILE, 'Desk')
    expect(toldOf(desk)).toMatchObject({ kind: 'failed', act: 'found' })
    server.loseAnswers(0)
    await desk.setup.acts.found(DESK_FILE, 'Desk')
    expect(namesOf(desk)).toEqual(['Desk'])
    const chair = await page()
    await letIn(desk, chair, 'Chair 2')
  })

  it('over a lost answer and a reload belongs to what it has founded', async () => {
    const { server, desk, page } = await setupRig()
    server.loseAnswers(1)
    await desk.setup.acts.found(DESK_FILE, 'Desk')
    server.loseAnswers(0)
    // Whether the page knows that it is a member or is asked to found once more, as another name even: it is the same.
    const again = await page(Promise.resolve(desk.of))
    expect(asMember(again)).toMatchObject({ isDesk: true, isRival: false })
    await again.setup.acts.found(DESK_FILE, 'Another name')
    expect(namesOf(again)).toEqual(['Desk'])
    await vi.waitFor(() => expect(again.hub().state().kind).toBe('connected'), SOON)
    await letIn(again, await page(), 'Chair 2')
    expect(asMember(again).isRival).toBe(false)
  })
})

describe('joining', () => {
  it('by a typed code makes this device one of the clinic after the person said yes', async () => {
    const { desk, page } = await founded()
    const chair = await letIn(desk, await page(), 'Chair 2')
    await vi.waitFor(() => expect(namesOf(desk)).toEqual(['Front desk', 'Chair 2']), SOON)
    expect(asMember(chair)).toMatchObject({ isDesk: false, hasDeskFile: false })
    expect(toldOf(desk)).toEqual({ kind: 'done', act: 'admit', device: 'Chair 2' })
  })

  it('three wrong codes end it, each with the tries that are left', async () => {
    const { desk, page } = await founded()
    const code = await invited(desk)
    const chair = await page()
    const wrong = (code.startsWith('A') ? 'B' : 'A') + code.slice(1)
    for (const tries of [2, 1, 0]) {
      await chair.setup.acts.join(wrong, 'Chair 2')
      expect(toldOf(chair)).toEqual({ kind: 'joinRefused', why: 'wrongCode', tries })
    }
    await chair.setup.acts.join(code, 'Chair 2')
    expect(toldOf(chair)).toEqual({ kind: 'joinRefused', why: 'codeOver' })
    expect(chair.setup.view().kind).toBe('none')
  })

  it.each([
    ['hello', 'Chair', 'noCode'],
    ['ABCDEFGH', 'Chair', 'noDesk'],
  ])(
    'with %j is refused as %s %s',
    async (code, name, why) => {
      const { page } = await founded()
      const chair = await page()
      await chair.setup.acts.join(code, name)
      expect(toldOf(chair)).toEqual({ kind: 'joinRefused', why })
    },
    15_000,
  )

  it('under the name of another is refused, in any writing of it', async () => {
    const { desk, page } = await founded()
    const code = await invited(desk)
    const chair = await page()
    await chair.setup.acts.join(code, ' FRONT  desk ')
    expect(toldOf(chair)).toEqual({ kind: 'joinRefused', why: 'nameTaken' })
  })

  it('while the records are locked is refused; nothing is asked of the desk', async () => {
    const { desk, page } = await founded()
    const code = await invited(desk)
    const chair = await page()
    await chair.of.vault.setUp('123456')
    chair.of.vault.lock()
    await chair.setup.acts.join(code, 'Chair 2')
    expect(chair.setup.view().kind).toBe('locked')
    expect(asMember(desk).invitation?.tried).toBe(0)
    await chair.of.vault.open('123456')
    expect(toldOf(chair)).toEqual({ kind: 'locked' })
    await letIn(desk, chair, 'Chair 2')
  })

  it('that is locked while the desk is asked keeps nothing, says so, and is done again', async () => {
    const { desk, page } = await founded()
    const code = await invited(desk)
    const chair = await page()
    await chair.of.vault.setUp('123456')
    const joined = chair.setup.acts.join(code, 'Chair 2')
    await asked(desk, 'Chair 2')
    chair.of.vault.lock()
    await desk.setup.acts.admit()
    await joined
    await chair.of.vault.open('123456')
    expect(toldOf(chair)).toEqual({ kind: 'joinRefused', why: 'notKept' })
    const id = asMember(desk).devices.at(-1)?.id
    await letIn(desk, chair, 'Chair 2')
    expect(idOf(chair)).toBe(id)
    expect(asMember(desk).devices.length).toBe(2)
  })

  it('with a desk that is loaded anew in mid-admission ends, and another code lets the same device in', async () => {
    const { desk, page } = await founded()
    const code = await invited(desk)
    const chair = await page()
    const joined = chair.setup.acts.join(code, 'Chair 2')
    await asked(desk, 'Chair 2')
    await desk.close()
    await joined
    expect(toldOf(chair)).toEqual({ kind: 'joinRefused', why: 'noDesk' })
    const again = await page(Promise.resolve(desk.of))
    await vi.waitFor(() => expect(asMember(again).hasDeskFile).toBe(true), SOON)
    await vi.waitFor(() => expect(again.hub().state().kind).toBe('connected'), SOON)
    await letIn(again, chair, 'Chair 2')
    expect(namesOf(again)).toEqual(['Front desk', 'Chair 2'])
  })

  it('is stopped by the person and told as nothing', async () => {
    const { desk, page } = await founded()
    const code = await invited(desk)
    const chair = await page()
    const joined = chair.setup.acts.join(code, 'Chair 2')
    await asked(desk, 'Chair 2')
    chair.setup.acts.stopJoining()
    await joined
    expect(chair.setup.view()).toEqual({ kind: 'none', clinic: 'c1', isBusy: false })
  })

  it('pressed twice is one act', async () => {
    const { desk, page } = await founded()
    const code = await invited(desk)
    const chair = await page()
    const both = [chair.setup.acts.join(code, 'Chair 2'), chair.setup.acts.join(code, 'Chair 2')]
    await asked(desk, 'Chair 2')
    await Promise.all([desk.setup.acts.admit(), desk.setup.acts.admit()])
    await Promise.all(both)
    expect(asMember(desk).devices.length).toBe(2)
    expect(chair.reloads()).toBe(1)
  })
})

describe('cutting off', () => {
  it('is told with the name, and a device that comes back is another one', async () => {
    const { desk, page, rights } = await founded()
    const chair = await letIn(desk, await page(), 'Chair 2')
    const id = idOf(chair)
    await desk.setup.acts.revoke(id)
    expect(toldOf(desk)).toEqual({ kind: 'done', act: 'revoke', device: 'Chair 2' })
    expect(rights.gone.length).toBe(1)
    expect(asMember(desk).devices.find((d) => d.id === id)?.revoked_ms).toBeGreaterThan(0)
    // What it left is gone with it; joining anew it has another id, and the name is free.
    await chair.setup.acts.leave()
    expect(chair.setup.view().kind).toBe('none')
    await letIn(desk, chair, 'Chair 2')
    expect(idOf(chair)).not.toBe(id)
    expect(asMember(desk).devices.length).toBe(3)
  })

  it('that stops half way says so, and the same again does the rest', async () => {
    const { server, desk, page, rights } = await founded()
    const chair = await letIn(desk, await page(), 'Chair 2')
    const cutOff = rights.cutOff
    rights.cutOff = async (file, keys) => {
      await cutOff(file, keys)
      server.setUp(false)
    }
    await desk.setup.acts.revoke(idOf(chair))
    expect(toldOf(desk)).toEqual({ kind: 'halfRevoked', device: 'Chair 2' })
    expect(asMember(desk).devices.at(-1)?.revoked_ms).toBeUndefined()
    rights.cutOff = cutOff
    server.setUp(true)
    await vi.waitFor(() => expect(desk.hub().state().kind).toBe('connected'), SOON)
    await desk.setup.acts.revoke(idOf(chair))
    expect(toldOf(desk)).toEqual({ kind: 'done', act: 'revoke', device: 'Chair 2' })
    expect(asMember(desk).devices.at(-1)?.revoked_ms).toBeGreaterThan(0)
  })

  it('that the hub refuses changes nothing and is told', async () => {
    const { desk, page, rights } = await founded()
    const chair = await letIn(desk, await page(), 'Chair 2')
    rights.trouble = new Error('away')
    await desk.setup.acts.revoke(idOf(chair))
    expect(toldOf(desk)).toEqual({ kind: 'failed', act: 'revoke' })
    expect(asMember(desk).devices.at(-1)?.revoked_ms).toBeUndefined()
  })

  it('is not for a chair, which has no desk file', async () => {
    const { desk, page } = await founded()
    const chair = await letIn(desk, await page(), 'Chair 2')
    await chair.setup.acts.revoke(idOf(desk))
    expect(toldOf(chair)).toEqual({ kind: 'noDeskFile' })
  })
})

describe('leaving', () => {
  it('forgets keys, pass and desk file', async () => {
    const { desk } = await founded()
    await desk.setup.acts.leave()
    expect(desk.setup.view().kind).toBe('none')
    for (const name of ['keys', 'pass', 'desk'] as const) {
      expect(await desk.of.secrets.read(name)).toBeUndefined()
    }
  })
})
