// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { keptRecordSystems } from '../../../src/app/site/recordSystems.ts'
import { SERVICES } from '../../support/fakeServices.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

const show = (recordSystems = SERVICES.site.recordSystems) =>
  renderApp({ screen: { name: 'settings' } }, { site: { ...SERVICES.site, recordSystems } })
const field = (label: RegExp | string) => screen.getByLabelText(label)
const section = () => screen.getByRole('group', { name: 'Record server (FHIR)' })
const keep = () => {
  const buttons = Array.from(section().querySelectorAll('button'))
  return buttons.find(({ textContent }) => textContent === 'Keep')!
}
const kept = (calls: readonly (readonly unknown[])[]) => {
  const [, json] = calls.find(([name]) => name === 'keepRecordSystems') ?? []
  return keptRecordSystems(json as string, 'unread')
}

describe('the record server in the settings', () => {
  it('keeps what was typed in a form that is read back as it was meant', async () => {
    const { calls } = show()
    await userEvent.type(field(/System of patient record numbers/), ' https://example.org/mrn ')
    await userEvent.type(field(/System of order numbers/), 'urn:oid:1.2.3')
    await userEvent.click(field('Create an order which the record server does not know'))
    await userEvent.click(keep())
    expect(kept(calls)).toEqual({
      faults: [],
      value: {
        patient: { system: 'https://example.org/mrn', create: false },
        order: { system: 'urn:oid:1.2.3', create: true, foundBy: 'requisition' },
      },
    })
  })

  it('creates no order where one request stands for all tests', async () => {
    const { calls } = show({ order: { system: 'urn:x:y', create: true, foundBy: 'requisition' } })
    await userEvent.selectOptions(field('How the order number stands there'), 'identifier')
    expect(screen.queryByLabelText(/Create an order/)).toBeNull()
    await userEvent.click(keep())
    expect(kept(calls).value.order).toEqual({
      ...{ system: 'urn:x:y', create: false, foundBy: 'identifier' },
    })
  })

  it.each(['no address', 'javascript', 'https://a b', 'https://example.org/a|b'])(
    'keeps nothing while an address is none: %s',
    async (typed) => {
      show()
      await userEvent.type(field(/System of visit numbers/), typed)
      expect(keep().hasAttribute('disabled')).toBe(true)
      expect(section().textContent).toContain('This must be an address')
    },
  )

  it('has nothing that axe finds wrong', async () => {
    show({ patient: { system: 'https://example.org/mrn', create: true } })
    expect(await axeFindings()).toEqual([])
  })
})

describe('what was kept of it', () => {
  it.each([
    '{',
    '[]',
    '{"patient":{"system":"x","create":true}}',
    '{"patient":{"system":"urn:a"}}',
  ])('is nothing, and somebody is told, where it does not read: %s', (json) => {
    expect(keptRecordSystems(json, 'unread')).toEqual({ value: {}, faults: ['unread'] })
  })
})
