import { useState } from 'react'
import type { FormEvent } from 'react'
import { LONGEST_PIN } from '../../core/lock/pin.ts'
import { useLockTexts } from './useLockTexts.ts'

interface PinPadProps {
  readonly isDisabled: boolean
  readonly isBusy: boolean
  readonly onPin: (pin: string) => void
}

const DIGITS = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '0'] as const

/** A PIN by big keys, or typed. It is gone from the screen as soon as it is sent. */
export function PinPad({ isDisabled, isBusy, onPin }: PinPadProps) {
  const [pin, setPin] = useState('')
  const { texts, fill } = useLockTexts()
  const { locked } = texts
  const keep = (typed: string): void => setPin(typed.replace(/\D/g, '').slice(0, LONGEST_PIN))
  const send = (event: FormEvent): void => {
    event.preventDefault()
    if (pin === '' || isDisabled) return
    setPin('')
    onPin(pin)
  }
  return (
    <form className="pinPad" onSubmit={send}>
      <label className="pinField">
        {locked.pin}
        <input
          className="input"
          type="password"
          inputMode="numeric"
          autoComplete="off"
          autoFocus
          value={pin}
          onChange={(event) => keep(event.target.value)}
        />
      </label>
      <div className="pinKeys">
        {DIGITS.map((digit) => (
          <button
            key={digit}
            type="button"
            className="button pinKey figures"
            aria-label={fill(locked.digit, { digit })}
            disabled={isDisabled}
            onClick={() => keep(pin + digit)}
          >
            {digit}
          </button>
        ))}
        <button
          type="button"
          className="button pinKey"
          aria-label={locked.erase}
          disabled={isDisabled || pin === ''}
          onClick={() => keep(pin.slice(0, -1))}
        >
          <span aria-hidden="true">⌫</span>
        </button>
      </div>
      <button type="submit" className="button go pinSend" disabled={isDisabled || pin === ''}>
        {isBusy ? locked.opening : locked.open}
      </button>
    </form>
  )
}
