import { describe, expect, it } from 'vitest'
import { orderDrawOf } from '../../../src/core/day/orderDraw.ts'
import { missingTests } from '../../../src/core/record/missingTests.ts'
import { factsOf } from '../../../src/core/record/factsOf.ts'
import { listOf, listed, order } from '../../support/sampleList.ts'
import {
  logOf,
  sampleLog,
  sampleOpening,
  straightLines,
  wrongPersonAddendum,
} from '../../support/sampleLog.ts'

const opening = { listed: ['a'] }
const { tests } = sampleOpening().order
const events = listed(order({ id: 'a', tests: [...tests] }))
const statusBy = (log = sampleLog({ opening })) => {
  const draw = orderDrawOf(log)
  const { toDo, done } = listOf(events, draw ? [draw] : [])
  return { toDo: toDo.map(({ status }) => status), done: done.map(({ status }) => status) }
}

// Common practice, no source: the specimen of one patient never serves another.
describe('a draw of which an addendum says that it was of another person', () => {
  const wrong = sampleLog({ opening, add: [[500, wrongPersonAddendum]] })

  it('settles no order: whoever was to be drawn is on the list again', () => {
    expect(statusBy()).toEqual({ toDo: [], done: ['drawn'] })
    expect(statusBy(wrong)).toEqual({ toDo: ['notDrawn'], done: [] })
  })

  it('leaves every test without blood, for the reason that the identity did not match', () => {
    const why = tests.map((test) => ({ test, why: 'identityMismatch' }))
    expect(orderDrawOf(wrong)?.missing).toEqual(why)
    expect(missingTests(factsOf(sampleLog({ opening })))).toEqual([])
  })
})

it('a draw that was stopped with the needle in since the identity did not match says that, not that the patient reacted', () => {
  const lines = straightLines(sampleOpening(opening)).filter(([at]) => at < 200)
  const log = logOf([
    ...lines,
    [200, { type: 'exceptionRaised', kind: 'identityMismatch' }],
    [300, { type: 'drawClosed', outcome: 'stopped' }],
  ])
  expect(missingTests(factsOf(log)).map(({ why }) => why)).toEqual(
    tests.map(() => 'identityMismatch'),
  )
  expect(statusBy(log).toDo).toEqual(['notDrawn'])
})
