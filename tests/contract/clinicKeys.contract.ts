import { describe, expect, it } from 'vitest'
import { isPublicKey, isWrappedKeys } from '../../src/core/hub/wrappedKeys.ts'
import { ClinicKeyError, type ClinicKeyFault, type ClinicKeys } from '../../src/ports/clinicKeys.ts'

/** The fault that a promise rejects with. */
export const keyFaultOf = (work: Promise<unknown>): Promise<ClinicKeyFault | 'no fault'> =>
  work.then(
    () => 'no fault' as const,
    (error: unknown) => {
      if (error instanceof ClinicKeyError) return error.fault
      throw error
    },
  )

/** What all keys of a clinic must do. `fresh` gives those of a device that belongs to none. */
export function clinicKeysContract(name: string, fresh: () => Promise<ClinicKeys>): void {
  /** A desk with a key in force, and a chair that was given it. */
  const clinic = async () => {
    const [desk, chair] = await Promise.all([fresh(), fresh()])
    const first = await desk.rotate()
    const [given] = await chair.accept(await desk.wrapFor(await chair.identity()))
    await chair.use(given ?? '')
    return { desk, chair, first }
  }

  describe(`${name} as keys of a clinic`, () => {
    it('have none in force at first, seal nothing and wrap nothing', async () => {
      const keys = await fresh()
      expect(await keys.current()).toBeUndefined()
      expect(await keyFaultOf(keys.seal('c1/draw-1/1', 'x'))).toBe('none')
      expect(await keyFaultOf(keys.wrapFor(await keys.identity()))).toBe('none')
      expect(await keys.current()).toBeUndefined()
    })

    it('have one public key each, for good', async () => {
      const [a, b] = await Promise.all([fresh(), fresh()])
      const [first, other] = [await a.identity(), await b.identity()]
      expect(isPublicKey(first)).toBe(true)
      expect(other).not.toBe(first)
      await a.rotate()
      expect(await a.identity()).toBe(first)
    })

    it('seal on one device what opens on another, whatever the text', async () => {
      const { desk, chair, first } = await clinic()
      for (const text of ['', 'Ana Núñez 🩸', '\u0000"\\', 'x'.repeat(100_000)]) {
        const { key, sealed } = await desk.seal('c1/draw-1/1', text)
        expect(key).toBe(first)
        expect(await chair.open('c1/draw-1/1', key, sealed)).toBe(text)
      }
      const back = await chair.seal('c1/draw-2/1', 'from the chair')
      expect(await desk.open('c1/draw-2/1', back.key, back.sealed)).toBe('from the chair')
    })

    it('show nothing of the text, and never the same twice', async () => {
      const { desk } = await clinic()
      const [a, b] = [await desk.seal('c', 'Ana Example'), await desk.seal('c', 'Ana Example')]
      expect(Buffer.from(a.sealed.data).toString('latin1')).not.toContain('Ana')
      expect(Buffer.from(a.sealed.data)).not.toEqual(Buffer.from(b.sealed.data))
      expect(Buffer.from(a.sealed.iv)).not.toEqual(Buffer.from(b.sealed.iv))
    })

    it('open nothing at another place, and nothing that was changed', async () => {
      const { desk, chair } = await clinic()
      const { key, sealed } = await desk.seal('c1/draw-1/1', 'sealed')
      expect(await keyFaultOf(chair.open('c1/draw-1/2', key, sealed))).toBe('damaged')
      for (let at = 0; at < sealed.data.length; at++) {
        const data = sealed.data.slice()
        data[at] = (data[at] ?? 0) ^ 1
        expect(await keyFaultOf(chair.open('c1/draw-1/1', key, { ...sealed, data }))).toBe(
          'damaged',
        )
      }
      const cut = { ...sealed, data: sealed.data.slice(0, 3) }
      expect(await keyFaultOf(chair.open('c1/draw-1/1', key, cut))).toBe('damaged')
      const noIv = { ...sealed, iv: new Uint8Array() }
      expect(await keyFaultOf(chair.open('c1/draw-1/1', key, noIv))).toBe('damaged')
    })

    it('name the key that is missing', async () => {
      const { desk, chair } = await clinic()
      const next = await desk.rotate()
      const { key, sealed } = await desk.seal('c', 'after')
      expect(key).toBe(next)
      expect(await keyFaultOf(chair.open('c', key, sealed))).toBe('unknownKey')
      expect(await keyFaultOf(chair.open('c', 'constructor', sealed))).toBe('unknownKey')
      expect(await keyFaultOf(chair.use(next))).toBe('unknownKey')
      expect(await keyFaultOf((await fresh()).open('c', key, sealed))).toBe('unknownKey')
    })

    it('keep earlier keys when one is changed, and hand on all of them', async () => {
      const { desk, chair, first } = await clinic()
      const before = await chair.seal('c', 'before')
      const minted = await desk.mint()
      expect(await desk.current()).toBe(first)
      const names = await chair.accept(await desk.wrapFor(await chair.identity()))
      expect(names).toEqual([first, minted])
      expect(await chair.current()).toBe(first)
      await Promise.all([desk.use(minted), chair.use(minted)])
      const after = await desk.seal('c', 'after')
      expect(await chair.open('c', after.key, after.sealed)).toBe('after')
      expect(await desk.open('c', before.key, before.sealed)).toBe('before')
    })

    it('take the same keys again without a change', async () => {
      const { desk, chair, first } = await clinic()
      const wrapped = await desk.wrapFor(await chair.identity())
      await chair.accept(wrapped)
      expect(await chair.accept(wrapped)).toEqual([first])
      expect(await chair.current()).toBe(first)
    })

    it('take nothing that was wrapped for another, changed or made up', async () => {
      const { desk, chair, first } = await clinic()
      const other = await fresh()
      const wrapped = await desk.wrapFor(await chair.identity())
      expect(isWrappedKeys(wrapped)).toBe(true)
      expect(await keyFaultOf(other.accept(wrapped))).toBe('notForUs')
      const flipped = wrapped.data.startsWith('0') ? '1' : '0'
      const data = flipped + wrapped.data.slice(1)
      expect(await keyFaultOf(chair.accept({ ...wrapped, data }))).toBe('notForUs')
      const from = await other.identity()
      expect(await keyFaultOf(chair.accept({ ...wrapped, from }))).toBe('notForUs')
      expect(await keyFaultOf(chair.accept({ from: '', iv: '', data: '' }))).toBe('notForUs')
      expect(await keyFaultOf(desk.wrapFor('3059'))).toBe('notForUs')
      // A point that is not on the curve: the classic way to lure a private key out.
      const off = `${(await chair.identity()).slice(0, -4)}0000`
      expect(await keyFaultOf(desk.wrapFor(off))).toBe('notForUs')
      expect(await other.current()).toBeUndefined()
      expect(await chair.current()).toBe(first)
    })

    it('forget everything when the device leaves', async () => {
      const { desk, chair } = await clinic()
      const { key, sealed } = await desk.seal('c', 'x')
      const was = await chair.identity()
      await chair.forget()
      expect(await chair.current()).toBeUndefined()
      expect(await keyFaultOf(chair.open('c', key, sealed))).toBe('unknownKey')
      expect(await chair.identity()).not.toBe(was)
    })

    it('tell of every change until the observer ends it', async () => {
      const keys = await fresh()
      let told = 0
      const end = keys.onChange(() => void told++)
      await keys.rotate()
      expect(told).toBeGreaterThan(0)
      const before = told
      end()
      await keys.rotate()
      expect(told).toBe(before)
    })

    it('lose none when many are made at once', async () => {
      const keys = await fresh()
      const names = await Promise.all(Array.from({ length: 8 }, () => keys.mint()))
      for (const name of names) await keys.use(name)
      expect(new Set(names).size).toBe(8)
    })
  })
}
