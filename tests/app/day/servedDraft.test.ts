import { expect, it } from 'vitest'
import { servedDraft } from '../../../src/app/day/servedDraft.ts'
import { sampleListed } from '../../support/sampleDay.ts'
import { shippedSite } from '../../support/site.ts'

const ward = { kind: 'ward', text: 'Ward 2, bed 4' } as const

it('the ward of an order of the list stands in the form, and so on labels and request', () => {
  expect(servedDraft([sampleListed({ place: ward })], shippedSite).ward).toBe('Ward 2, bed 4')
  const both = [sampleListed(), sampleListed({ id: 'L2', place: ward })] as const
  expect(servedDraft(both, shippedSite).ward).toBe('Ward 2, bed 4')
})

it('a ward that the order names itself stays, and a home or a room is no ward', () => {
  const { order } = sampleListed()
  const named = sampleListed({ place: ward, order: { ...order, ward: 'Ward 9' } })
  expect(servedDraft([named], shippedSite).ward).toBe('Ward 9')
  const home = sampleListed({ place: { kind: 'home', text: '2 Example Lane' } })
  expect(servedDraft([home], shippedSite).ward).toBe('')
})
