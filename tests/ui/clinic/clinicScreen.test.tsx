// @vitest-environment jsdom
import { screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import type { AppState } from '../../../src/app/appApi.ts'
import type { SetupTold } from '../../../src/app/hub/setup/clinicSetupView.ts'
import { JOIN_REFUSALS } from '../../../src/core/hub/join/joinMessages.ts'
import { CLINIC_STATES, LINK, MEMBER } from '../../support/clinicScenes.ts'
import { FULL_DAY_ms } from '../../support/fullDay.ts'
import { FILLING } from '../../support/views.ts'
// Loaded here, so that it is there at once when it is asked for.
import '../../../src/ui/clinic/ClinicScreen.tsx'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

const show = async (state: Partial<AppState>) => {
  const app = renderApp(state, { now_ms: () => FULL_DAY_ms })
  await screen.findByRole('group', { name: 'What the hub sees' }, { timeout: 30_000 })
  return app
}
const button = (name: string | RegExp) => screen.getByRole('button', { name })
const joinField = (label: string) =>
  within(screen.getByRole('group', { name: 'Join a clinic' })).getByLabelText(label)
const told = (each: SetupTold) => show({ ...CLINIC_STATES.clinicOutside, clinicSetup: { kind: 'none', clinic: 'Invented clinic', isBusy: false, told: each } }) // prettier-ignore

describe('the screen of the clinic', () => {
  it.each(Object.entries(CLINIC_STATES))(
    'has nothing that axe finds wrong: %s',
    async (_, state) => {
      await show(state)
      expect(await axeFindings()).toEqual([])
    },
  )

  it('is reached from the settings only where the site has a hub', async () => {
    const { calls } = renderApp({ screen: { name: 'settings' }, clinicSetup: MEMBER })
    const section = screen.getByRole('group', { name: 'Clinic' })
    await userEvent.click(within(section).getByRole('button', { name: 'Open' }))
    expect(calls).toContainEqual(['go', { name: 'clinic' }])
  })

  it('is not in the settings of a device alone', () => {
    renderApp({ screen: { name: 'settings' }, clinicSetup: undefined })
    expect(screen.queryByRole('group', { name: 'Clinic' })).toBeNull()
  })

  it('says what the hub still sees', async () => {
    await show(CLINIC_STATES.clinicOutside)
    const says = screen.getByRole('group', { name: 'What the hub sees' }).textContent
    for (const word of ['bytes', 'time', 'devices', 'draws']) expect(says).toContain(word)
  })
})

it('tells a member what the site’s file says wrong, and that the kept one counts', async () => {
  const said = { ...MEMBER, siteFaults: ['address', 'otherClinic'] as const }
  await show({ ...CLINIC_STATES.clinicDesk, clinicSetup: said })
  const box = screen.getByText(/goes on with the one that it has kept/).closest('[role=alert]')
  expect(box?.textContent).toMatch(/wss:.*another clinic than the one this device belongs to/)
})

describe('joining', () => {
  it('sends the code and the name, by keyboard alone', async () => {
    const { calls } = await show({ ...CLINIC_STATES.clinicOutside })
    await userEvent.type(joinField('Name of this device'), 'Chair 3')
    // As a hand scanner types it: the letters, then Enter.
    await userEvent.type(joinField('Code from the desk'), '7Q2FK9MX{Enter}')
    expect(calls).toContainEqual(['clinicSetup.join', '7Q2FK9MX', 'Chair 3'])
  })

  it('waits while a draw runs, and says why', async () => {
    await show({ ...CLINIC_STATES.clinicOutside, draw: FILLING })
    await userEvent.type(joinField('Name of this device'), 'Chair 3')
    await userEvent.type(joinField('Code from the desk'), '7Q2FK9MX')
    expect(button('Join').hasAttribute('disabled')).toBe(true)
    expect(screen.getAllByText(/A draw runs on this device/).length).toBeGreaterThan(0)
  })

  it('shows the key that the desk shows, and can be stopped', async () => {
    const { calls } = await show(CLINIC_STATES.clinicAsking)
    expect(screen.getByText(/9c1f00aa42d7e6b3/)).toBeTruthy()
    await userEvent.click(button('Stop'))
    expect(calls).toContainEqual(['clinicSetup.stopJoining'])
  })

  it.each([...JOIN_REFUSALS, 'noCode', 'noDesk', 'noHub', 'forged', 'notKept', 'tooLate'] as const)(
    'says in words why it came to nothing: %s',
    async (why) => {
      await told({ kind: 'joinRefused', why, tries: 2 })
      const line = screen.getByRole('main').querySelector('.warnBox')
      expect(line?.textContent).toMatch(/^[A-Z].{15,}\.$/)
      expect(line?.textContent).not.toContain('{')
    },
  )

  it('counts the tries that are left, down to none', async () => {
    await told({ kind: 'joinRefused', why: 'wrongCode', tries: 1 })
    expect(screen.getByText('That code is wrong. 1 try is left.')).toBeTruthy()
  })

  it('says that the last try was the last', async () => {
    await told({ kind: 'joinRefused', why: 'wrongCode', tries: 0 })
    expect(screen.getByText(/it was the last try/)).toBeTruthy()
  })
})

describe('founding', () => {
  const found = async (file: File) => {
    const app = await show({ ...CLINIC_STATES.clinicOutside })
    await userEvent.click(screen.getByText('Found the clinic', { selector: 'summary' }))
    const form = screen.getByRole('group', { name: 'Found the clinic' })
    await userEvent.type(within(form).getByLabelText('Name of this device'), 'Front desk')
    await userEvent.upload(within(form).getByLabelText('Choose the desk file'), file)
    await within(form).findByText(/Chosen: desk.json/)
    await userEvent.click(button('Found Invented clinic here'))
    return app
  }
  it('hands the desk file over as it is', async () => {
    const { calls } = await found(new File(['{"clinic":"c"}'], 'desk.json'))
    expect(calls).toContainEqual(['clinicSetup.found', '{"clinic":"c"}', 'Front desk'])
  })
  it('reads nothing of a file that is far too large', async () => {
    const { calls } = await found(new File(['x'.repeat(100_001)], 'desk.json'))
    expect(calls).toContainEqual(['clinicSetup.found', '', 'Front desk'])
  })
})

describe('a desk', () => {
  it('shows its code large, in groups and as bars', async () => {
    await show(CLINIC_STATES.clinicCode)
    expect(screen.getByText('7Q2F-K9MX')).toBeTruthy()
    expect(screen.getByRole('img', { name: 'The code as bars' })).toBeTruthy()
    expect(screen.getByText('Counts for 3:47 more.')).toBeTruthy()
    expect(screen.getByText('1 wrong code was tried. After three it ends.')).toBeTruthy()
  })

  it('is asked whether a device may come in, with its key', async () => {
    const { calls } = await show(CLINIC_STATES.clinicDesk)
    const asked = screen.getByText('“Chair 3” wants to join.').closest('[role=alert]')
    expect(asked?.textContent).toContain('9c1f00aa42d7e6b3')
    await userEvent.click(button('Let it in'))
    await userEvent.click(button('Refuse'))
    expect(calls.map(([name]) => name)).toEqual(['clinicSetup.admit', 'clinicSetup.refuse'])
  })

  it('lists devices in use first, and when one was cut off; itself it cannot cut off', async () => {
    await show(CLINIC_STATES.clinicCode)
    const list = screen.getByRole('group', { name: 'Devices' })
    const rows = within(list)
      .getAllByRole('listitem')
      .map((row) => row.querySelector('p')?.textContent)
    expect(rows.map((row) => row?.split(' since')[0])).toEqual([
      'Front desk (desk, this device)',
      'Chair 1',
      'Bench in the laboratory, second floor',
      'Night desk (desk)',
      'Chair 2',
    ])
    expect(rows.at(-1)).toMatch(/cut off .*2026/)
    expect(within(list).queryByRole('button', { name: /Front desk/ })).toBeNull()
    expect(within(list).queryByRole('button', { name: /Chair 2/ })).toBeNull()
  })

  it('asks before it cuts off, and again of another desk what that means', async () => {
    const { calls } = await show(CLINIC_STATES.clinicCode)
    await userEvent.click(button('Cut off Night desk'))
    expect(screen.getByText(/knows the desk file/)).toBeTruthy()
    await userEvent.click(button('No'))
    await userEvent.click(button('Cut off Chair 1'))
    expect(calls).toEqual([])
    await userEvent.click(button('Yes, do it'))
    expect(calls).toEqual([['clinicSetup.revoke', 'D-2']])
  })

  it('makes a second desk after it was asked', async () => {
    const { calls } = await show(CLINIC_STATES.clinicCode)
    await userEvent.click(button('Make it a desk: Chair 1'))
    await userEvent.click(button('Yes, do it'))
    expect(calls).toEqual([['clinicSetup.makeDesk', 'D-2']])
  })

  it('says what is to be done again after half an act', async () => {
    await show({
      ...CLINIC_STATES.clinicCode,
      clinicSetup: { ...MEMBER, told: { kind: 'halfRevoked', device: 'Chair 1' } },
    })
    expect(screen.getByText(/“Chair 1” is shut out of the hub, but/)).toBeTruthy()
  })

  it('is no desk on a chair: nothing to invite with, nobody to cut off', async () => {
    await show({
      ...CLINIC_STATES.clinicCode,
      clinicSetup: { ...MEMBER, device: 'D-2', isDesk: false, hasDeskFile: false },
    })
    expect(screen.queryByRole('group', { name: 'Let a device in' })).toBeNull()
    expect(screen.queryByRole('button', { name: /Cut/ })).toBeNull()
  })

  it('that was just made one connects as one when the person says so', async () => {
    const { calls } = await show(CLINIC_STATES.clinicNewDesk)
    expect(screen.getByText(/“Front desk” shows a code now/)).toBeTruthy()
    await userEvent.click(button('Connect as a desk now'))
    expect(calls).toContainEqual(['clinicSetup.beginAnew'])
  })
})

describe('what the clinic has in common', () => {
  it('is told by kind, edition and desk; what is not in use yet can be used between draws', async () => {
    const { calls } = await show(CLINIC_STATES.clinicNewDesk)
    expect(screen.getByText('Catalog: edition 12, given by “Front desk”.')).toBeTruthy()
    expect(screen.getByText(/Limits: edition 10 of “Front desk” has come and is not in use/)).toBeTruthy() // prettier-ignore
    expect(screen.getByText('New from a desk: Limits, Stock.')).toBeTruthy()
    await userEvent.click(button('Use it now'))
    expect(calls).toContainEqual(['clinicSetup.beginAnew'])
  })

  it('is given by a desk alone, and asked for first', async () => {
    const { calls } = await show(CLINIC_STATES.clinicCode)
    expect(screen.getByText(/No desk has given anything yet/)).toBeTruthy()
    await userEvent.click(button('Give it to every device'))
    expect(calls).toEqual([])
    expect(screen.getByText(/replace what those devices have/)).toBeTruthy()
    await userEvent.click(button('Yes, do it'))
    expect(calls).toEqual([['clinicSetup.share']])
  })

  it('is given by no chair', async () => {
    await show({
      ...CLINIC_STATES.clinicCode,
      clinicSetup: { ...MEMBER, device: 'D-2', isDesk: false, hasDeskFile: false },
    })
    expect(screen.queryByRole('button', { name: 'Give it to every device' })).toBeNull()
  })
})

describe('leaving', () => {
  it('warns with the number of entries that wait, and of the last desk', async () => {
    const { calls } = await show({
      ...CLINIC_STATES.clinicCode,
      clinicSetup: { ...MEMBER, devices: MEMBER.devices.slice(0, 2) },
      clinic: { ...LINK, link: 'alone', waiting_n: 14 },
    })
    await userEvent.click(button('Leave …'))
    expect(calls).toEqual([])
    expect(screen.getByText(/14 entries of this device wait/)).toBeTruthy()
    expect(screen.getByText(/This is the only desk/)).toBeTruthy()
    await userEvent.click(button('Leave'))
    expect(calls).toEqual([['clinicSetup.leave']])
  })

  it('waits while a draw runs', async () => {
    await show({ ...CLINIC_STATES.clinicCode, draw: FILLING })
    expect(button('Leave …').hasAttribute('disabled')).toBe(true)
  })
})

describe('what stands in the way', () => {
  it('a pass that ended, or that the hub does not know, is joined with anew', async () => {
    const { calls } = await show(CLINIC_STATES.clinicRefused)
    expect(screen.getByText(/Its pass at the hub ended on/)).toBeTruthy()
    await userEvent.type(screen.getByLabelText('Code from the desk'), '7Q2FK9MX{Enter}')
    expect(calls).toContainEqual(['clinicSetup.join', '7Q2FK9MX', 'Chair 1'])
  })

  it('of a pass that the hub does not take it is not said until when it counts', async () => {
    const { clinicSetup, clinic } = CLINIC_STATES.clinicRefused
    const passEnds_ms = MEMBER.passEnds_ms
    await show({
      ...CLINIC_STATES.clinicRefused,
      clinicSetup: { ...clinicSetup, passEnds_ms } as typeof clinicSetup,
      clinic: { ...clinic, why: 'revoked' } as typeof clinic,
    })
    expect(screen.getByText(/This device was cut off/)).toBeTruthy()
    expect(screen.queryByText(/Its pass at the hub/)).toBeNull()
  })

  it('a list of devices that no desk signed is told and shown nowhere', async () => {
    await show(CLINIC_STATES.clinicRefused)
    expect(screen.getByText(/Edition 12 of the list of devices is not taken/)).toBeTruthy()
  })

  it('a hub file of another clinic is told', async () => {
    await show(CLINIC_STATES.clinicBadFile)
    expect(screen.getByText(/It names another clinic/)).toBeTruthy()
  })

  it('of two first desks the second is told', async () => {
    await show({ ...CLINIC_STATES.clinicCode, clinicSetup: { ...MEMBER, isRival: true } })
    expect(screen.getByText(/Another desk had founded Invented clinic/)).toBeTruthy()
    expect(screen.queryByRole('group', { name: 'Let a device in' })).toBeNull()
  })
})
