import { describe, expect, it, vi } from 'vitest'
import { createMemoryClinic } from '../../../src/adapters/hub/memory/memoryClinic.ts'
import { devicesInUse } from '../../../src/core/hub/roster.ts'
import type { Hub } from '../../../src/ports/hub.ts'
import { following, foundedDesk, joinClock, joining, SOON, upHub } from '../../support/joinRig.ts'

const rig = async () => {
  const server = createMemoryClinic(joinClock)
  return { server, ...(await foundedDesk(server)) }
}
type Rig = Awaited<ReturnType<typeof rig>>
const codeOf = ({ desk }: Rig): string => desk.view()?.code ?? ''
const askedFor = (each: Rig, name: string) =>
  vi.waitFor(() => expect(each.desk.view()?.asking?.name).toBe(name), SOON)
const text = (value: object): Uint8Array => new TextEncoder().encode(JSON.stringify(value))
const wrongOf = (code: string): string => (code.startsWith('A') ? 'B' : 'A') + code.slice(1)

/** A hub whose questions or answers somebody changes on the way. */
const between = (
  hub: Hub,
  change: (fields: Record<string, unknown>, to: 'desk' | 'device') => object,
): Hub => ({
  ...hub,
  ask: async (bytes) => {
    const read = (raw: Uint8Array) =>
      JSON.parse(new TextDecoder().decode(raw)) as Record<string, unknown>
    return text(change(read(await hub.ask(text(change(read(bytes), 'desk')))), 'device'))
  },
})

describe('joining by a code', () => {
  it('lets a device in that the person said yes to; it reads what is sealed from then on', async () => {
    const each = await rig()
    each.desk.invite()
    const { device, outcome } = await joining(each.server, codeOf(each).toLowerCase(), 'Chair 2')
    await askedFor(each, 'Chair 2')
    expect(each.desk.view()?.asking?.keyName).toBe(device.signingKey.slice(-8))
    expect(devicesInUse(each.book.roster()).length).toBe(1)
    await each.desk.admit()
    const joined = await outcome
    if (joined.kind !== 'joined') throw new Error(joined.why)
    expect(joined.membership.roster).toEqual(each.book.signed())
    expect(each.desk.view()).toMatchObject({ outcome: 'admitted', isOpen: false })
    const { key, sealed } = await each.of.keys.seal('c', 'Ana')
    expect(await device.keys.open('c', key, sealed)).toBe('Ana')
  })

  it('lets nobody in before the person said yes, and not after a no', async () => {
    const each = await rig()
    each.desk.invite()
    const { outcome } = await joining(each.server, codeOf(each), 'Chair 2')
    await askedFor(each, 'Chair 2')
    each.desk.refuse()
    expect(await outcome).toEqual({ kind: 'refused', why: 'byPerson' })
    await each.desk.admit()
    expect(devicesInUse(each.book.roster()).length).toBe(1)
  })

  it('says how many tries a wrong code leaves, and the third ends it for the right one', async () => {
    const each = await rig()
    each.desk.invite()
    const wrong = wrongOf(codeOf(each))
    for (const tries of [2, 1, 0]) {
      const { outcome } = await joining(each.server, wrong, 'Chair 2')
      expect(await outcome).toEqual({ kind: 'refused', why: 'wrongCode', tries })
    }
    const { outcome } = await joining(each.server, codeOf(each), 'Chair 2')
    expect(await outcome).toEqual({ kind: 'refused', why: 'codeOver' })
    expect(each.desk.view()?.asking).toBeUndefined()
  })

  it('is refused without a code, without a desk, and with a code of before', async () => {
    const each = await rig()
    const no = await joining(each.server, 'hello', 'Chair 2')
    expect(await no.outcome).toEqual({ kind: 'refused', why: 'noCode' })
    const alone = await joining(each.server, 'ABCDEFGH', 'Chair 2')
    expect(await alone.outcome).toEqual({ kind: 'refused', why: 'noDesk' })
    each.desk.invite()
    const before = codeOf(each)
    each.desk.invite()
    const { outcome } = await joining(each.server, before, 'Chair 2')
    expect(await outcome).toMatchObject({ kind: 'refused', why: 'wrongCode' })
  })

  it.each(['sealingKey', 'deskKey', 'salt', 'signingKey', 'passKey', 'name'])(
    'notices somebody in between who changes %s',
    async (field) => {
      const each = await rig()
      const other = await rig()
      each.desk.invite()
      const forged: Record<string, string> = {
        sealingKey: await other.of.keys.identity(),
        deskKey: await other.of.keys.identity(),
        salt: '11'.repeat(16),
        signingKey: other.of.signingKey,
        passKey: 'UFORGEDFORGEDFORGEDFORGED',
        name: 'Chair 3',
      }
      const hub = between(await upHub(each.server.join('J', { pass: 'joining' })), (fields) =>
        Object.hasOwn(fields, field) ? { ...fields, [field]: forged[field] } : fields,
      )
      const { outcome } = await joining(each.server, codeOf(each), 'Chair 2', { hub })
      expect(await outcome).toMatchObject({ kind: 'refused', why: 'wrongCode' })
      expect(each.desk.view()?.asking).toBeUndefined()
    },
  )

  it('takes nothing that was changed in what is handed out', async () => {
    const each = await rig()
    each.desk.invite()
    const hub = between(await upHub(each.server.join('J', { pass: 'joining' })), (fields) =>
      fields.type === 'welcome'
        ? { ...fields, body: String(fields.body).replace('Chair 2', 'Chair 9') }
        : fields,
    )
    const { device, outcome } = await joining(each.server, codeOf(each), 'Chair 2', { hub })
    await askedFor(each, 'Chair 2')
    await each.desk.admit()
    expect(await outcome).toEqual({ kind: 'refused', why: 'forged' })
    expect(await device.keys.current()).toBeUndefined()
  })

  it('of a recorded attempt gives nothing to whoever plays it again', async () => {
    const each = await rig()
    each.desk.invite()
    const heard: Uint8Array[] = []
    const plain = await upHub(each.server.join('J', { pass: 'joining' }))
    const hub = { ...plain, ask: (b: Uint8Array) => (heard.push(b), plain.ask(b)) }
    const { outcome } = await joining(each.server, codeOf(each), 'Chair 2', { hub })
    await askedFor(each, 'Chair 2')
    await each.desk.admit()
    expect((await outcome).kind).toBe('joined')
    each.desk.invite()
    for (const bytes of heard) {
      const answer = new TextDecoder().decode(await plain.ask(bytes))
      expect(answer).not.toContain('welcome')
    }
    expect(each.desk.view()?.asking).toBeUndefined()
    expect(devicesInUse(each.book.roster()).length).toBe(2)
  })

  it('of two devices at once lets in one, and the other is told', async () => {
    const each = await rig()
    each.desk.invite()
    const both = await Promise.all(
      ['Chair 2', 'Chair 3'].map((name) => joining(each.server, codeOf(each), name)),
    )
    await vi.waitFor(() => expect(each.desk.view()?.asking).toBeDefined(), SOON)
    await each.desk.admit()
    const ends = await Promise.all(both.map(({ outcome }) => outcome))
    expect(ends.filter(({ kind }) => kind === 'joined').length).toBe(1)
    expect(ends.find(({ kind }) => kind === 'refused')).toMatchObject({
      why: expect.stringMatching(/busy|codeOver/) as string,
    })
  })

  it('asks for another name where one is taken, with the same code', async () => {
    const each = await rig()
    each.desk.invite()
    const taken = await joining(each.server, codeOf(each), 'DESK')
    expect(await taken.outcome).toEqual({ kind: 'refused', why: 'nameTaken' })
    const { outcome } = await joining(each.server, codeOf(each), 'Chair 2')
    await askedFor(each, 'Chair 2')
    await each.desk.admit()
    expect((await outcome).kind).toBe('joined')
  })

  it('lets the same device in again under its id, and cuts its old pass off', async () => {
    const each = await rig()
    each.desk.invite()
    const first = await joining(each.server, codeOf(each), 'Chair 2')
    await askedFor(each, 'Chair 2')
    await each.desk.admit()
    await first.outcome
    const before = each.book.roster().devices[1]
    each.desk.invite()
    const again = await joining(each.server, codeOf(each), 'Chair 2', {}, first.device)
    await askedFor(each, 'Chair 2')
    // The same button twice is one act.
    await Promise.all([each.desk.admit(), each.desk.admit()])
    expect((await again.outcome).kind).toBe('joined')
    const [, after] = each.book.roster().devices
    expect(each.book.roster().devices.length).toBe(2)
    expect([after?.id, after?.since_ms]).toEqual([before?.id, before?.since_ms])
    expect(each.rights.gone).toEqual([before?.passKey])
  })

  it('ends when the desk is closed in the middle, or its page is gone', async () => {
    const each = await rig()
    each.desk.invite()
    const one = await joining(each.server, codeOf(each), 'Chair 2')
    await askedFor(each, 'Chair 2')
    each.desk.close()
    expect(await one.outcome).toEqual({ kind: 'refused', why: 'byPerson' })
    each.desk.invite()
    const two = await joining(each.server, codeOf(each), 'Chair 2')
    await askedFor(each, 'Chair 2')
    await each.hub.stop()
    expect(await two.outcome).toEqual({ kind: 'refused', why: 'noDesk' })
  })

  it('goes on over lost answers', async () => {
    const each = await rig()
    each.desk.invite()
    each.server.loseAnswers(2)
    const { outcome } = await joining(each.server, codeOf(each), 'Chair 2')
    await askedFor(each, 'Chair 2')
    each.server.loseAnswers(0)
    await each.desk.admit()
    expect((await outcome).kind).toBe('joined')
  })
})

describe('cutting a device off', () => {
  const joined = async () => {
    const each = await rig()
    const chairs = []
    for (const name of ['Chair 2', 'Chair 3']) {
      each.desk.invite()
      const { device, outcome } = await joining(each.server, codeOf(each), name)
      await askedFor(each, name)
      await each.desk.admit()
      const end = await outcome
      if (end.kind !== 'joined') throw new Error(end.why)
      const hub = await upHub(each.server.join(end.membership.device))
      chairs.push({ ...end.membership, of: device, ...following(hub, end.membership, device) })
    }
    const [gone, stays] = chairs
    if (!gone || !stays) throw new Error('Two chairs')
    return { ...each, gone, stays }
  }

  it('takes away its pass, its trust and what is sealed from then on; the others go on', async () => {
    const { of, acts, rights, book, gone, stays, hub } = await joined()
    const before = await of.keys.seal('c', 'before')
    await acts.revoke(gone.device)
    await vi.waitFor(() => expect(stays.book.roster().edition).toBe(book.roster().edition), SOON)
    await vi.waitFor(() => expect(gone.book.roster().edition).toBe(book.roster().edition), SOON)
    expect(rights.gone).toEqual([
      gone.roster.roster.devices.find((d) => d.id === gone.device)?.passKey,
    ])
    const after = await stays.of.keys.seal('c', 'after')
    expect(after.key).toBe(await of.keys.current())
    expect(after.key).not.toBe(before.key)
    expect(await of.keys.open('c', after.key, after.sealed)).toBe('after')
    await expect(gone.of.keys.open('c', after.key, after.sealed)).rejects.toMatchObject({
      fault: 'unknownKey',
    })
    // Not with anything that stands at the hub either.
    const last = await hub.keys.get(`site/roster/${book.roster().edition}`)
    expect(new TextDecoder().decode(last?.bytes)).not.toContain(`"${gone.device}":`)
    for (const wrapped of Object.values(book.signed().keys)) {
      await expect(gone.of.keys.accept(wrapped)).rejects.toMatchObject({ fault: 'notForUs' })
    }
    const me = book.roster().devices.find(({ id }) => id === gone.device)
    const hubNow = await hub.keys.get('site/moment/D-desk')
    expect(me?.revoked_ms).toBe(hubNow?.at_ms)
  })

  it('that the hub did not do changes nothing, and may be done again', async () => {
    const { acts, rights, book, gone } = await joined()
    const edition = book.roster().edition
    rights.trouble = new Error('The hub is away')
    await expect(acts.revoke(gone.device)).rejects.toThrow('away')
    expect(book.roster().edition).toBe(edition)
    delete rights.trouble
    await Promise.all([acts.revoke(gone.device), acts.revoke(gone.device)])
    expect(book.roster().edition).toBe(edition + 1)
  })

  it('is not for the desk itself, nor for nobody', async () => {
    const { acts } = await joined()
    await expect(acts.revoke('D-desk')).rejects.toThrow()
    await expect(acts.revoke('D-nobody')).rejects.toThrow()
  })

  it('by a chair, or by whoever can write at the hub, is taken by nobody', async () => {
    const { book, gone, stays, hub } = await joined()
    const edition = book.roster().edition
    await expect(
      gone.book.publish((roster) => ({
        ...roster,
        devices: roster.devices.map((d) => (d.id === stays.device ? { ...d, revoked_ms: 5 } : d)),
      })),
    ).rejects.toThrow('noDesk')
    await vi.waitFor(() => expect(stays.book.refused()?.why).toBe('noDesk'), SOON)
    expect([book, stays.book].map((one) => one.roster().edition)).toEqual([edition, edition])
    await hub.keys.put('site/roster/999', text({ nonsense: true }), 0)
    expect(book.roster().edition).toBe(edition)
  })
})
