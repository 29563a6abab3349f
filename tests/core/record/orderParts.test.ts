import { describe, expect, it } from 'vitest'
import { labelsFor } from '../../../src/core/record/labels.ts'
import type { DrawOpened } from '../../../src/core/protocol/events.ts'
import { bundleOf, ofType } from '../../support/fhirBundle.ts'
import { valueOf, writeSample } from '../../support/readNote.ts'
import { sampleLog, sampleOpening } from '../../support/sampleLog.ts'

const { order } = sampleOpening()
const [citrate = '', gel = '', edta = ''] = order.tests

/** Two orders of two providers share the draw; one test is asked for by both. */
const shared: Partial<DrawOpened> = {
  order: {
    ...order,
    parts: [
      { orderNumber: 'O-1', tests: [citrate, gel], provider: 'Dr. One', priority: 'routine' },
      { orderNumber: 'O-2', tests: [gel, edta], provider: 'Dr. Two', priority: 'urgent' },
    ],
  },
}

describe('several orders that share a draw', () => {
  const note = writeSample({ opening: shared })

  it('each stand in the note, and each test with its order', () => {
    expect(valueOf(note, 'Order')).toBe('O-1 + O-2, routine')
    const tests = valueOf(note, 'Tests') ?? ''
    expect(tests).toMatch(/\(O-1\)/)
    expect(tests).toMatch(/\(O-1 \+ O-2\)/)
    expect(tests).toMatch(/\(O-2\)/)
  })

  it('stand on the label of each tube with the numbers of the orders that it is for', () => {
    const log = sampleLog({ opening: shared })
    const numbers = labelsFor(log).map(({ orderNumber }) => orderNumber)
    expect([...numbers].sort()).toEqual(['O-1', 'O-1 + O-2', 'O-2'])
  })

  it('are requests of their own requisition, priority and requester', () => {
    const requests = ofType(bundleOf(sampleLog({ opening: shared })), 'ServiceRequest')
    const of = (code: string) =>
      requests.find(({ code: named }) => named?.coding?.some((each) => each.code === code))
    expect(of(edta)).toMatchObject({
      requisition: { value: 'O-2' },
      priority: 'urgent',
      requester: { display: 'Dr. Two' },
    })
    expect(of(citrate)).toMatchObject({ requisition: { value: 'O-1' }, priority: 'routine' })
  })

  it('leave a draw of one order as it was', () => {
    expect(valueOf(writeSample(), 'Order')).toBe(`${order.orderNumber}, ${order.priority}`)
    const numbers = labelsFor(sampleLog()).map(({ orderNumber }) => orderNumber)
    expect(new Set(numbers)).toEqual(new Set([order.orderNumber]))
  })
})

describe('a recollection', () => {
  const rejected: Partial<DrawOpened> = {
    recollects: { drawId: 'D7-20261124-0002', tubeIds: ['t2'], reason: 'RH', note: 'grossly' },
  }

  it('says in the note which tubes of which draw it makes good, and why', () => {
    expect(valueOf(writeSample({ opening: rejected }), 'Recollection of')).toBe(
      'draw D7-20261124-0002, tubes t2: hemolyzed, grossly',
    )
    const missing = { drawId: 'D7-20261124-0002', tubeIds: [], reason: 'notDrawn' }
    expect(valueOf(writeSample({ opening: { recollects: missing } }), 'Recollection of')).toBe(
      'draw D7-20261124-0002: not drawn then',
    )
    expect(valueOf(writeSample(), 'Recollection of')).toBeUndefined()
  })

  // HL7 version 2, table 0490, specimen reject reason: RH is hemolysis.
  it('bears the laboratory’s own code in its requests', () => {
    const [request] = ofType(bundleOf(sampleLog({ opening: rejected })), 'ServiceRequest')
    expect(request?.reasonCode).toMatchObject([
      { coding: [{ code: 'RH' }], text: 'D7-20261124-0002 t2' },
    ])
  })
})
