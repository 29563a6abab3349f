// @vitest-environment jsdom
import { fireEvent, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { LOCK_OFF, type LockView } from '../../../src/app/lock/lockView.ts'
import { texts } from '../../support/lockTexts.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

const locked = (change: Partial<LockView> = {}): LockView => ({
  ...LOCK_OFF,
  state: 'locked',
  ...change,
})
/** Puts a text into a field at once: these tests are not about how fast somebody types. */
const write = (label: string, value: string): void => {
  fireEvent.change(screen.getByLabelText(label), { target: { value } })
}
const press = (name: string) => userEvent.click(screen.getByRole('button', { name }))

describe('the locked screen', () => {
  it('stands before every screen and shows nothing of any record', () => {
    renderApp({ lock: locked() })
    expect(screen.getByRole('heading', { name: texts.locked.title })).toBeTruthy()
    expect(document.body.textContent).not.toMatch(/Marlo|Tamsin|New draw/)
  })

  it('takes a PIN by its keys, sends it once and clears it', async () => {
    const app = renderApp({ lock: locked() })
    for (const digit of '482913') await press(`Digit ${digit}`)
    await press(texts.locked.erase)
    await press('Digit 3')
    await press(texts.locked.open)
    expect(app.calls).toEqual([['unlock', '482913']])
    expect(screen.getByLabelText<HTMLInputElement>('PIN').value).toBe('')
  })

  it('takes a typed PIN with Enter, and nothing but digits', async () => {
    const app = renderApp({ lock: locked() })
    await userEvent.type(screen.getByLabelText('PIN'), '48x2913{Enter}')
    expect(app.calls).toEqual([['unlock', '482913']])
  })

  it('says that a PIN was wrong and how long none is tried, and takes none meanwhile', async () => {
    const app = renderApp({ lock: locked({ told: texts.locked.wrong, wait_s: 15 }) })
    expect(screen.getByRole('status').textContent).toContain('This PIN is not right.')
    expect(screen.getByRole('status').textContent).toContain('for 15 more seconds')
    await userEvent.type(screen.getByLabelText('PIN'), '482913{Enter}')
    expect(app.calls).toEqual([])
  })

  it('opens by the recovery key with a new PIN', async () => {
    const app = renderApp({ lock: locked({ wait_s: 300 }) })
    await press(texts.locked.byRecovery)
    write('Recovery key', 'AAAA-BBBB')
    write('New PIN', '771144')
    await press(texts.locked.recover)
    expect(app.calls).toEqual([['recover', 'AAAA-BBBB', '771144']])
  })

  it('has nothing that axe finds wrong', async () => {
    renderApp({ lock: locked({ told: texts.locked.wrong, wait_s: 15 }) })
    expect(await axeFindings()).toEqual([])
  })
})

describe('the recovery key', () => {
  const recoveryKey = 'ABCD-EFGH-JKMN-PQRS-TVWX-YZ01-2345-6789'

  it('is shown alone, and leaves only when it is said to be kept', async () => {
    const app = renderApp({ lock: { ...LOCK_OFF, state: 'open', recoveryKey } })
    expect(screen.getByText(recoveryKey)).toBeTruthy()
    expect(document.body.textContent).not.toMatch(/Marlo|Tamsin/)
    await press(texts.recovery.done)
    expect(app.calls).toEqual([])
    await userEvent.click(screen.getByLabelText(texts.recovery.kept))
    await press(texts.recovery.done)
    expect(app.calls).toEqual([['keptRecovery']])
    expect(await axeFindings()).toEqual([])
  })
})

describe('the settings', () => {
  it('set a PIN that is typed twice alike', async () => {
    const app = renderApp({ screen: { name: 'settings' } })
    write('PIN', '123456')
    await press(texts.section.setPin)
    expect(screen.getByText(texts.section.faults.tooSimple)).toBeTruthy()
    write('PIN', '482913')
    write(texts.section.pinAgain, '482914')
    await press(texts.section.setPin)
    expect(screen.getByText(texts.section.notAlike)).toBeTruthy()
    expect(app.calls).toEqual([])
    write(texts.section.pinAgain, '482913')
    await press(texts.section.setPin)
    expect(app.calls).toEqual([['setPin', '482913']])
  })

  it('change the PIN and make a new recovery key for the present one', async () => {
    const app = renderApp({
      screen: { name: 'settings' },
      lock: { ...LOCK_OFF, state: 'open' },
    })
    write(texts.section.presentPin, '482913')
    write(texts.section.newPin, '771144')
    await press(texts.section.changePin)
    write(texts.section.presentPin, '771144')
    await press(texts.section.newRecovery)
    await press(texts.section.lockNow)
    expect(app.calls).toEqual([
      ['changePin', '482913', '771144'],
      ['renewRecovery', '771144'],
      ['lockNow'],
    ])
  })

  it('keep minutes and days only within their range', () => {
    const app = renderApp({
      screen: { name: 'settings' },
      lock: { ...LOCK_OFF, state: 'open' },
    })
    const minutes = screen.getByLabelText(texts.section.afterMinutes)
    write(texts.section.afterMinutes, '0')
    expect(minutes.getAttribute('aria-invalid')).toBe('true')
    write(texts.section.afterMinutes, '9')
    expect(app.calls).toEqual([['changeSettings', { lockAfter_min: 9 }]])
  })

  it.each([
    [true, texts.records.kept],
    [false, texts.records.mayBeCleared],
    [undefined, texts.records.keptUnknown],
  ])('say whether the browser keeps the records: %s', (storageKept, text) => {
    renderApp({ screen: { name: 'settings' }, storageKept })
    expect(screen.getByText(text)).toBeTruthy()
  })
})

describe('the first screen', () => {
  it('advises a PIN where there is none', async () => {
    const app = renderApp()
    await press(texts.advice.button)
    expect(app.calls).toEqual([['go', { name: 'settings' }]])
  })

  it('does not where there is one', () => {
    renderApp({ lock: { ...LOCK_OFF, state: 'open' } })
    expect(screen.queryByText(new RegExp(texts.advice.text))).toBeNull()
  })
})

describe('turning the PIN off in the settings', () => {
  const { section } = texts
  const open = (change: Partial<LockView> = {}) =>
    renderApp({ screen: { name: 'settings' }, lock: { ...LOCK_OFF, state: 'open', ...change } })
  const confirm = () => screen.getByRole<HTMLButtonElement>('button', { name: section.turnOff.confirm }) // prettier-ignore
  const inForm = (): HTMLElement => {
    const form = confirm().closest('form')
    if (!form) throw new Error('There is no form.')
    return form
  }

  it('takes the PIN and a tick, and can be left', async () => {
    const app = open()
    await press(section.turnOff.open)
    expect(confirm().disabled).toBe(true)
    const pin = within(inForm()).getByLabelText(section.presentPin)
    fireEvent.change(pin, { target: { value: '482913' } })
    expect(confirm().disabled).toBe(true)
    await userEvent.click(screen.getByLabelText(section.turnOff.understood))
    await press(section.turnOff.confirm)
    expect(app.calls).toEqual([['turnPinOff', '482913']])
    await press(section.turnOff.cancel)
    expect(screen.queryByRole('button', { name: section.turnOff.confirm })).toBeNull()
  })

  it('is closed while records are being encrypted or none may be tried, and tells how far it is', async () => {
    open({ sealing: { done: 1, of: 4 }, unsealing: { done: 2, of: 4 } })
    await press(section.turnOff.open)
    fireEvent.change(within(inForm()).getByLabelText(section.presentPin), { target: { value: '482913' } }) // prettier-ignore
    await userEvent.click(screen.getByLabelText(section.turnOff.understood))
    expect(confirm().disabled).toBe(true)
    expect(document.body.textContent).toContain('in plain: 2 of 4')
  })

  it('has no fault that axe finds', async () => {
    open()
    await press(section.turnOff.open)
    expect(await axeFindings()).toEqual([])
  })
})

describe('the lock in the settings', () => {
  it('tells what was done as asked plainly, and only what is wrong as a fault', () => {
    renderApp({
      screen: { name: 'settings' },
      lock: { ...LOCK_OFF, done: texts.section.turnedOff },
    })
    expect(screen.getByText(texts.section.turnedOff).className).toBe('')
  })

  it('tells what is wrong as a fault', () => {
    renderApp({ screen: { name: 'settings' }, lock: { ...LOCK_OFF, told: texts.locked.wrong } })
    expect(screen.getByText(texts.locked.wrong).className).toBe('error')
  })
})
