import { useId, useRef, useState } from 'react'
import type { KeyboardEvent } from 'react'
import type { TestMatch } from '../../app/appServices.ts'
import { useServices } from '../shared/appContext.tsx'
import { Field } from '../shared/Field.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { fieldId, useDraft } from './useDraft.ts'

const SHOWN_n = 8

/**
 * Ordered tests, picked by typing: arrows move, Enter takes, Escape closes, Backspace in an empty field takes back.
 * Enter takes only what is marked, and nothing is marked by itself that one would not expect from what was typed.
 */
export function TestPicker() {
  const { draft, edit, errorOf } = useDraft()
  const services = useServices()
  const { texts, fill } = useTexts()
  const { order } = texts
  const [typed, setTyped] = useState('')
  const [open, setOpen] = useState(false)
  const [moved, setMoved] = useState<number>()
  const input = useRef<HTMLInputElement>(null)
  const listId = useId()
  const [said, setSaid] = useState('')

  const picked = new Set(draft.tests)
  const found = services.searchTests(typed)
  // Before anything is typed only what is not there yet is of use; a name that was typed stays where it is looked for.
  const matches = found
    .filter(({ code, fit }) => fit !== 'offered' || !picked.has(code))
    .slice(0, SHOWN_n)
  const showing = open && (matches.length > 0 || typed.trim() !== '')
  const place = moved ?? (isPlain(matches) ? 0 : undefined)
  const current = place === undefined ? undefined : matches[Math.min(place, matches.length - 1)]
  const unsure = showing && matches.length > 0 && place === undefined && typed.trim() !== ''

  const take = (code: string): void => {
    if (picked.has(code)) {
      setSaid(fill(order.testThere, { test: services.testName(code) }))
      return
    }
    edit({ tests: [...draft.tests, code] })
    setSaid(fill(order.testAdded, { test: services.testName(code) }))
    setTyped('')
    setMoved(undefined)
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
    if (!showing || matches.length === 0) return
    const from = place ?? (by > 0 ? -1 : matches.length)
    setMoved((from + by + matches.length) % matches.length)
  }
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'ArrowDown') move(1)
    else if (event.key === 'ArrowUp') move(-1)
    else if (event.key === 'Home' && showing) setMoved(0)
    else if (event.key === 'End' && showing) setMoved(matches.length - 1)
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
        required
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
                setMoved(undefined)
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
                  <span className="soft small">
                    {picked.has(test.code) && <strong>{order.testOnOrder} </strong>}
                    {[
                      ...test.aliases,
                      ...test.closures.map((closure) => fill(texts.plan.closure, { closure })),
                    ].join(' · ')}
                  </span>
                </li>
              ))}
            </ul>
            {unsure && <p className="hint">{order.testUnsure}</p>}
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

/** Whether the first is what one would expect of what was typed: at a word's beginning, and not one of several. */
function isPlain([first, second]: readonly TestMatch[]): boolean {
  if (!first || first.fit === 'offered' || first.fit === 'closure' || first.fit === 'within') {
    return false
  }
  return first.fit !== 'equal' || second?.fit !== 'equal'
}
