import { describe, expect, it } from 'vitest'
import { bundleOf, ofType } from '../../support/fhirBundle.ts'
import { sampleLog, sampleOpening } from '../../support/sampleLog.ts'

describe('the requests of a bundle', () => {
  it('says when, where and by whom it was ordered, as far as the order does', () => {
    const order = {
      ...sampleOpening().order,
      ...{
        providerNumber: 'P-1',
        orderedAt: '2026-11-25T08:30',
        ward: 'Ward 3',
        visitNumber: 'V-9',
      },
    }
    const bundle = bundleOf(sampleLog({ opening: { order } }))
    expect(ofType(bundle, 'ServiceRequest')[0]).toMatchObject({
      authoredOn: '2026-11-25T08:30:00+01:00',
      requester: { identifier: { value: 'P-1' }, display: 'Dr. Pat Placeholder' },
      encounter: { identifier: { value: 'V-9' } },
      locationReference: [{ display: 'Ward 3' }],
    })
    const day = { ...sampleOpening().order, orderedAt: '2026-11-24' }
    const [request] = ofType(bundleOf(sampleLog({ opening: { order: day } })), 'ServiceRequest')
    expect(request?.authoredOn).toBe('2026-11-24')
  })
})
