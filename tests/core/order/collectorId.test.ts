import { expect, it } from 'vitest'
import { collectorId } from '../../../src/core/order/collectorId.ts'

it('two people of one pair of initials are two; one person is one, however the spaces stand', () => {
  const robin = collectorId({ name: 'Robin Example', initials: 'RE' })
  expect(collectorId({ name: 'Rita Else', initials: 'RE' })).not.toBe(robin)
  expect(collectorId({ name: 'Robin  Example', initials: 're' })).toBe(robin)
  expect(collectorId({ name: '', initials: 'RE' })).toBe('re')
  expect(collectorId({ name: '', initials: '' })).toBe('')
})
