import { describe, expect, it } from 'vitest'
import { base64, utf8Bytes } from '../../../src/core/fhir/base64.ts'
import { uuidOf } from '../../../src/core/fhir/uuid.ts'
import { sha256 } from '../../support/sampleLog.ts'

describe('small parts', () => {
  it.each(['', 'f', 'fo', 'foo', 'foob', 'fooba', 'foobar'])(
    'base64 of "%s" is that of RFC 4648 section 10',
    (text) => {
      const vectors: Record<string, string> = {
        '': '',
        f: 'Zg==',
        fo: 'Zm8=',
        foo: 'Zm9v',
        foob: 'Zm9vYg==',
        fooba: 'Zm9vYmE=',
        foobar: 'Zm9vYmFy',
      }
      expect(base64(utf8Bytes(text))).toBe(vectors[text])
    },
  )

  it('writes UTF-8 as the platform does', () => {
    const text = 'aµ–😀\ud83d'
    expect(utf8Bytes(text)).toEqual([...new TextEncoder().encode(text)])
  })

  it('makes UUIDs of version 8 and the variant of RFC 9562, the same for the same text', () => {
    const uuid = uuidOf('x', sha256)
    expect(uuid).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/)
    expect(uuidOf('x', sha256)).toBe(uuid)
    expect(uuidOf('y', sha256)).not.toBe(uuid)
  })
})
