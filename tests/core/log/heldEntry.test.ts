import { expect, it } from 'vitest'
import { checkLog } from '../../../src/core/log/checkLog.ts'
import { sealAll } from '../../../src/core/log/seal.ts'
import type { UnsealedEntry } from '../../../src/core/protocol/entry.ts'
import { sampleLog, sha256 } from '../../support/sampleLog.ts'

const log = sampleLog()
const faultOf = (of: unknown) => {
  const checked = checkLog(of, sha256)
  return checked.ok ? undefined : checked.faults[0]
}
/** The same record with a mark on its second entry. */
function marked(mark: object) {
  const bare = log.entries.map(({ previous: _previous, hash: _hash, ...rest }, i) =>
    i === 1 ? { ...rest, ...mark } : rest,
  )
  return { ...log, entries: sealAll(bare as UnsealedEntry[], sha256) }
}

it('an entry may say that it was said while the ears were held open', () => {
  const held = marked({ held: true })
  expect(held.entries[1]).toHaveProperty('held', true)
  expect(faultOf(held)).toBeUndefined()
  expect(faultOf(log)).toBeUndefined()
})

it('the mark is closed in with the entry', () => {
  const held = marked({ held: true })
  const entries = held.entries.map(({ held: _held, ...rest }) => rest)
  expect(faultOf({ ...held, entries })).toMatchObject({ seq: 2 })
})

it('the mark is yes or absent', () => {
  expect(faultOf(marked({ held: 'yes' }))).toMatchObject({
    shape: { want: 'flag' },
    seq: 2,
  })
})

it('a reader from before lets a mark through that it does not know', () => {
  expect(faultOf(marked({ later: true }))).toBeUndefined()
})
