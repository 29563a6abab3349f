import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  readJoinAnswer,
  readJoinAsk,
  requestText,
  welcomeText,
  type JoinRequest,
  type JoinTranscript,
} from '../../../../src/core/hub/join/joinMessages.ts'
import { sampleDevice } from '../../../support/sampleRoster.ts'

const join = '0'.repeat(32)
const { sealingKey, signingKey, passKey, name } = sampleDevice(2)
const request: JoinRequest = {
  type: 'join',
  join,
  name,
  signingKey,
  sealingKey,
  passKey,
  mac: 'ab'.repeat(32),
}
const decode = (bytes: Uint8Array): string =>
  new TextDecoder('utf-8', { fatal: true }).decode(bytes)
const bytesOf = (value: unknown): Uint8Array => new TextEncoder().encode(JSON.stringify(value))
const asked = (value: unknown) => readJoinAsk(bytesOf(value), decode)

describe('what a device asks', () => {
  it.each([{ type: 'hello', join, sealingKey }, { type: 'poll', join }, request])(
    'is read: %#',
    (ask) => expect(asked(ask)).toEqual(ask),
  )

  it.each<[string, unknown]>([
    ['nothing', null],
    ['a list', [request]],
    ['another type', { ...request, type: 'admit' }],
    ['no attempt', { type: 'poll' }],
    ['a short attempt', { type: 'poll', join: '00' }],
    ['a field more', { ...request, isDesk: true }],
    ['a name that runs backwards', { ...request, name: '\u202Eksed' }],
    ['no key', { ...request, sealingKey: 'x' }],
    ['a MAC in capitals', { ...request, mac: 'AB'.repeat(32) }],
    ['a pass with a dot', { ...request, passKey: `${passKey}.` }],
  ])('is refused: %s', (_, value) => expect(asked(value)).toBeUndefined())

  it('is never more than a page, and bytes that are no text are no question', () => {
    expect(asked({ ...request, name: 'x'.repeat(5_000) })).toBeUndefined()
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        expect(readJoinAsk(bytes, decode)).toBeUndefined()
        expect(readJoinAnswer(bytes, join, decode)).toBeUndefined()
      }),
    )
  })
})

describe('what a desk answers', () => {
  const salt = '00'.repeat(16)
  it.each([
    { type: 'desk', join, deskKey: sealingKey, salt },
    { type: 'waiting', join },
    { type: 'refused', join, why: 'wrongCode', tries: 2 },
    { type: 'welcome', join, body: '{}', mac: 'ab'.repeat(32) },
  ])('is read: %#', (answer) => {
    expect(readJoinAnswer(bytesOf(answer), join, decode)).toEqual(answer)
    // An answer to another attempt is none.
    expect(readJoinAnswer(bytesOf(answer), '1'.repeat(32), decode)).toBeUndefined()
  })

  it.each([
    { type: 'desk', join, deskKey: 'x', salt },
    { type: 'refused', join, why: 'because' },
    { type: 'welcome', join, body: {}, mac: 'ab'.repeat(32) },
    { type: 'admitted', join },
  ])('is refused: %#', (answer) =>
    expect(readJoinAnswer(bytesOf(answer), join, decode)).toBeUndefined(),
  )
})

describe('the texts behind MACs', () => {
  const transcript: JoinTranscript = {
    clinic: 'c1',
    join,
    deskKey: sampleDevice(1).sealingKey,
    sealingKey,
    salt: '00'.repeat(16),
  }
  it('change with everything that both sides saw and with the direction', () => {
    const other = sampleDevice(3)
    const texts = [
      requestText(transcript, request),
      welcomeText(transcript, request, ''),
      ...Object.keys(transcript).map((field) =>
        requestText({ ...transcript, [field]: 'x' }, request),
      ),
      requestText(transcript, { ...request, name: 'x' }),
      requestText(transcript, { ...request, signingKey: other.signingKey }),
      requestText(transcript, { ...request, sealingKey: other.sealingKey }),
      requestText(transcript, { ...request, passKey: other.passKey }),
      welcomeText(transcript, request, 'x'),
      welcomeText(transcript, { ...request, name: 'x' }, ''),
    ]
    expect(new Set(texts).size).toBe(texts.length)
  })
})
