// @vitest-environment jsdom
import { cleanup, screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import type { ClinicView } from '../../../src/app/hub/clinic.ts'
import screens from '../../../src/data/en/screens.json' with { type: 'json' }
import { FULL_HAND_OVER } from '../../support/handOverView.ts'
import { fullDay } from '../../support/fullDay.ts'
import { CLINIC_STATES, LINK } from '../../support/clinicScenes.ts'
import { STATE } from '../../support/views.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

const home = (clinic: ClinicView | undefined, others: Parameters<typeof renderApp>[0] = {}) =>
  renderApp({ screen: { name: 'home' }, draw: undefined, clinic, ...others })

describe('the line on how this device stands to its clinic', () => {
  it.each<[ClinicView, RegExp]>([
    [LINK, /connected, everything is there/],
    [{ ...LINK, isSentElsewhere: true }, /everything is there\. Another tab of this device sends/],
    [{ ...LINK, coming_n: 2000 }, /catching up, 2000 entries to come/],
    [{ ...LINK, waiting_n: 1 }, /connected, 1 entry on its way/],
    [{ ...LINK, link: 'connecting' }, /connecting/],
    [{ ...LINK, link: 'alone' }, /Working alone since \d\d:\d\d\. Everything is kept here/],
    [{ ...LINK, link: 'alone', waiting_n: 12 }, /12 entries wait for the hub/],
    [{ ...LINK, link: 'refused', why: 'revoked' }, /does not let this device in\. This device was cut off/], // prettier-ignore
    [{ ...LINK, link: 'refused', why: 'expired' }, /has run out\. Join again/],
  ])('%#', (view, says) => {
    home(view)
    expect(screen.getByText(says)).toBeTruthy()
  })

  it('is not there on a device alone', () => {
    home(undefined)
    expect(screen.queryByText(/hub/)).toBeNull()
  })
})

describe('what stands in no record', () => {
  it('is told, can be read and saved as text', async () => {
    const saved: unknown[] = []
    renderApp(CLINIC_STATES.clinicRefused && { ...CLINIC_STATES.clinicRefused, screen: { name: 'home' } }, { page: { print: () => undefined, copyText: () => Promise.resolve(true), saveText: (file) => void saved.push(file) } }) // prettier-ignore
    const alert = screen
      .getByText(/2 entries of this device are not in the record/)
      .closest('[role=alert]')
    expect(alert?.textContent).toContain('3 entries from Chair 2 are not shown as records')
    expect(alert?.textContent).toContain('The disk of the hub is full')
    await userEvent.click(screen.getByRole('button', { name: 'Show these entries' }))
    expect(screen.getByText('{"seq":3}')).toBeTruthy()
    await userEvent.click(screen.getByRole('button', { name: 'Save them as text' }))
    expect(saved).toEqual([
      expect.objectContaining({ text: expect.stringContaining('{"seq":4}') as string }),
    ])
    expect(await axeFindings()).toEqual([])
  })
})

it('tells of a device with the prefix of this one, and what to do', () => {
  const settings = { ...STATE.settings, devicePrefix: 'KM47' }
  home({ ...LINK, samePrefix: 'Chair 2' }, { settings })
  expect(screen.getByRole('alert').textContent).toMatch(
    /“Chair 2” gives its draws the same prefix as this device, KM47\. .*give one of the two devices another/,
  )
})

describe('draws on other devices', () => {
  const other = { drawId: 'B3-1', opened_ms: 0, closed: false, patientName: 'Ana Invented', invented: false, deviceName: 'Chair 2', heard_ms: 60_000 } // prettier-ignore

  it('are named with who and where, to look on at; closed ones are not listed', async () => {
    const { calls } = home(LINK, { others: [other, { ...other, drawId: 'B3-2', closed: true }] })
    expect(screen.getAllByText('on Chair 2').length).toBe(1)
    await userEvent.click(
      screen.getByRole('button', { name: 'Look on at the draw of Ana Invented on Chair 2' }),
    )
    expect(calls).toContainEqual(['go', { name: 'draw', drawId: 'B3-1' }])
    expect(await axeFindings()).toEqual([])
  })

  it('show no name where names are hidden on the list', async () => {
    home(LINK, { others: [other], day: fullDay() })
    const words = (): string =>
      screen.getByRole('region', { name: 'Draws on other devices' }).innerHTML
    expect(words()).toContain('Ana Invented')
    await userEvent.click(screen.getAllByRole('button', { name: 'Hide names' })[0] as HTMLElement)
    expect(words()).not.toContain('Ana')
    expect(words()).toContain('B3-1')
  })
})

describe('what stays on a device that shares', () => {
  const words = (): string => document.body.textContent
  it('is said as it is: what is recorded goes to the others', () => {
    home(LINK)
    expect(words()).toContain(screens.home.staysClinic)
    expect(words()).not.toContain('Everything stays on this device')
  })
  it.each(['idle', 'waiting', 'paused', 'drawing'] as const)(
    'also where records are handed over and that is %s',
    (state) => {
      home(undefined, { handOver: { ...FULL_HAND_OVER, state } })
      expect(words()).toContain(screens.home.staysHandOver)
      cleanup()
      home(LINK, { handOver: { ...FULL_HAND_OVER, state } })
      expect(words()).toContain(screens.home.staysBoth)
    },
  )
  it.each(['none', 'unread', 'off', 'otherServer'] as const)(
    'is everything where nothing is handed over: %s',
    (state) => {
      home(undefined, { handOver: { ...FULL_HAND_OVER, state } })
      expect(words()).toContain(screens.home.stays)
    },
  )
})

describe('what has become of orders at the record server', () => {
  it('is told above the list, until somebody has understood it', async () => {
    const { orders } = FULL_HAND_OVER
    const told = ['Order O-1 is not to be drawn any more.']
    const { calls } = home(undefined, {
      handOver: { ...FULL_HAND_OVER, orders: { ...orders, told } },
    })
    expect(screen.getByText(told[0] ?? '').closest('[role=status]')).toBeTruthy()
    await userEvent.click(screen.getByRole('button', { name: 'Understood' }))
    expect(calls).toContainEqual(['handOver.dismissTold'])
    expect(await axeFindings()).toEqual([])
  })
})

describe('a tab that another one has left behind', () => {
  it.each([
    ['joined', /has joined Invented clinic in another tab/],
    ['left', /has left Invented clinic in another tab/],
  ] as const)('is told that the device has %s, and can be loaded anew', async (kind, says) => {
    const { calls } = home(undefined, { clinicMoved: { kind, clinic: 'Invented clinic' } })
    expect(screen.getByText(says)).toBeTruthy()
    await userEvent.click(screen.getByRole('button', { name: 'Load this tab anew' }))
    expect(calls).toContainEqual(['clinicSetup.beginAnew'])
    expect(await axeFindings()).toEqual([])
  })
})
