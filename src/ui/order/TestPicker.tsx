import { useId, useRef, useState } from 'react'
import type { KeyboardEvent } from 'react'
import { useServices } from '../shared/appContext.tsx'
import { Field } from '../shared/Field.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { fieldId, useDraft } from './useDraft.ts'

const SHOWN_n = 8

/** Ordered tests, picked by typing: arrows move, Enter takes, Escape closes, Backspace in an empty field takes back. */
export function TestPicker() {
  const { draft, edit, errorOf } = useDraft()
  const services = useServices()
  const { texts, fill } = useTexts()
  const { order } = texts
  const [typed, setTyped] = useState('')
  const [open, setOpen] = useState(false)
  const [active, setActive] = useState(0)
  const input = useRef<HTMLInputElement>(null)
  const listId = useId()
  const [said, setSaid] = useState('')

  const picked = new Set(draft.tests)
  const found = services.searchTests(typed).filter((test) => !picked.has(test.code))
  const matches = found.slice(0, SHOWN_n)
  const showing = open && (matches.length > 0 || typed.trim() !== '')
  const current = matches[Math.min(active, matches.length - 1)]

  const take = (code: string): void => {
    edit({ tests: [...draft.tests, code] })
    setSaid(fill(order.testAdded, { test: services.testName(code) }))
    setTyped('')
    setActive(0)
    input.current?.focus()
  }
  const drop = (place: number): void => {
    const code = draft.tests[place] ?? ''
    edit({ tests: draft.tests.filter((_other, index) => index !== place) })
    setSaid(fill(order.testRemoved, { test: services.testName(code) }))
    input.current?.focus()
  }
  const move = (by: number): void => {
    setOpen(true)
    if (showing && matches.length > 0) setActive((active + by + matches.length) % matches.length)
  }
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'ArrowDown') move(1)
    else if (event.key === 'ArrowUp') move(-1)
    else if (event.key === 'Home' && showing) setActive(0)
    else if (event.key === 'End' && showing) setActive(matches.length - 1)
    else if (event.key === 'Escape') setOpen(false)
    else if (event.key === 'Enter') {
      if (showing && current) take(current.code)
    } else if (event.key === 'Backspace' && typed === '') {
      if (draft.tests.length > 0) drop(draft.tests.length - 1)
      return
    } else return
    event.preventDefault()
  }

  return (
    <div className="testPicker">
      <Field
        id={fieldId('tests')}
        label={order.tests}
        hint={order.testsHint}
        error={errorOf('tests')}
      >
        {(parts) => (
          <div className="combo">
            <input
              {...parts}
              ref={input}
              className="input"
              role="combobox"
              aria-expanded={showing}
              aria-controls={listId}
              aria-autocomplete="list"
              {...(showing && current && { 'aria-activedescendant': `${listId}-${current.code}` })}
              autoComplete="off"
              value={typed}
              onChange={(event) => {
                setTyped(event.target.value)
                setActive(0)
                setOpen(true)
              }}
              onFocus={() => setOpen(true)}
              onBlur={() => setOpen(false)}
              onKeyDown={onKeyDown}
            />
            <ul
              className="bare options"
              id={listId}
              role="listbox"
              aria-label={order.testsFound}
              hidden={!showing}
            >
              {matches.map((test) => (
                <li
                  key={test.code}
                  id={`${listId}-${test.code}`}
                  role="option"
                  aria-selected={test === current}
                  // The field keeps the focus; the press must not blur it before the click lands.
                  onPointerDown={(event) => event.preventDefault()}
                  onClick={() => take(test.code)}
                >
                  <span>{test.name}</span>
                  <span className="soft small">{[test.code, ...test.aliases].join(' · ')}</span>
                </li>
              ))}
            </ul>
            {showing && matches.length === 0 && (
              <p className="options none">{fill(order.noTest, { typed: typed.trim() })}</p>
            )}
          </div>
        )}
      </Field>
      <p className="visuallyHidden" role="status">
        {said}
      </p>
      {draft.tests.length > 0 && (
        <ul className="bare picked" aria-label={order.testsPicked}>
          {draft.tests.map((code, place) => (
            <li key={`${place} ${code}`}>
              <button
                type="button"
                onClick={() => drop(place)}
                aria-label={fill(order.removeTest, { test: services.testName(code) })}
              >
                {services.testName(code)} <span aria-hidden="true">×</span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}
