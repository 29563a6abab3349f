import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { nameOf, tokenOf } from '../../../../src/adapters/hub/nats/token.ts'
import {
  entrySubject,
  inboxOf,
  keySubject,
  readKeySubject,
  readSubject,
} from '../../../../src/adapters/hub/nats/subjects.ts'

/** Any text without half a character. */
const name = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 40 })

describe('tokens of a subject', () => {
  it('leave plain names as they are', () => {
    expect(tokenOf('draw-KM47-20261127-0001')).toBe('draw-KM47-20261127-0001')
    expect(tokenOf('a.b *>_')).toBe('a_2eb_20_2a_3e_5f')
    expect(tokenOf('Ä')).toBe('_c3_84')
  })

  it('hold any name, and give it back', () => {
    fc.assert(
      fc.property(name, (any) => {
        const token = tokenOf(any)
        // What the server's own grammar gives a meaning to, or a client refuses.
        expect(token).toMatch(/^[A-Za-z0-9_-]+$/)
        expect(nameOf(token)).toBe(any)
      }),
    )
  })

  it('are read only in the one way in which they are written', () => {
    for (const token of ['', 'a.b', '*', '_2E', '_6', '_61', '_ff', '_c3', 'a b', 'ä']) {
      expect(nameOf(token), token).toBeUndefined()
    }
  })
})

describe('subjects', () => {
  it('name log, device and kind, and are read back', () => {
    fc.assert(
      fc.property(name, name, name, (clinic, log, device) => {
        const subject = entrySubject(clinic, log, device, 'writer')
        expect(subject.split('.')).toHaveLength(5)
        expect(readSubject(subject)).toEqual({ log, device, kind: 'writer' })
      }),
    )
    fc.assert(
      fc.property(
        fc.array(
          name.filter((one) => !one.includes('/')),
          { minLength: 2 },
        ),
        (parts) => {
          expect(readKeySubject(keySubject('c 1', parts.join('/')))).toBe(parts.join('/'))
        },
      ),
    )
    expect(inboxOf('A.1')).toBe('_INBOX.A_2e1')
  })

  it('of another making are none of an entry', () => {
    const odd = ['log.c1.d.A1', 'log.c1.d.A1.entry.x', 'log.c1.d.A1.other', 'join.c1.d.A1.entry']
    for (const subject of [...odd, 'log.c1.d.A_.entry', 'log.c1..A1.entry', '']) {
      expect(readSubject(subject), subject).toBeUndefined()
    }
    for (const key of ['$KV.OTHER.c.a.b', '$KV.SITE.c.a.B_', '$KV.SITE.', '$KV.SITE.c']) {
      expect(readKeySubject(key), key).toBeUndefined()
    }
  })
})
