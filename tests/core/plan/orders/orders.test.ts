import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { readOrderFile } from '../../../../src/app/site/catalogue/readJson.ts'
import { planSittings } from '../../../../src/core/plan/planSittings.ts'
import type { Plan, PlannedTube } from '../../../../src/core/plan/plan.ts'
import { texts } from '../../../../src/data/en/texts.ts'
import { planInput } from '../../../support/planning.ts'
import { EXPECTED, type Expected } from './expected.ts'
import { KNOWN_OPEN } from './knownOpen.ts'

const FOLDER = join(import.meta.dirname, '../../../fixtures/orders')
const ORDERS = readdirSync(FOLDER)
  .filter((file) => file.endsWith('.json'))
  .map((file) => file.slice(0, -'.json'.length))

function drawsOf(name: string): readonly Plan[] {
  const reading = readOrderFile(readFileSync(join(FOLDER, `${name}.json`), 'utf8'), texts)
  if (!reading.ok) throw new Error(reading.faults.map(({ text }) => text).join(' '))
  return planSittings({ ...planInput([]), ...reading.value }).map(({ plan }) => plan)
}

/** A tube as the expectations write it. */
function written({ role, additive, handling, tests }: PlannedTube): string {
  if (role === 'discard') return 'discard'
  const kept = handling.filter((mark) => mark === 'ice' || mark === 'warm').join(' ')
  return `${additive}${kept && ` ${kept}`}: ${[...tests].sort().join(' ')}`
}

/** The same plan in the words of the expectation, volumes only where an expert would count them. */
function comparable([first, ...later]: readonly Plan[], { most_mL }: Expected) {
  const codes = (notices: readonly { readonly code: string }[] = []): string[] => [
    ...new Set(notices.map(({ code }) => code)),
  ]
  return {
    tubes: first?.tubes.map(written) ?? [],
    later: later.map((plan) => plan.tubes.map(written)),
    stops: codes(first?.problems),
    warns: codes(first?.warnings),
    tooMuch: most_mL !== undefined && (first?.blood.draw_mL ?? 0) > most_mL + 1e-9,
  }
}

function wanted({ tubes, later = [], stops = [], warns = [] }: Expected) {
  return { tubes, later, stops, warns, tooMuch: false }
}

describe('orders as an expert would draw them', () => {
  it('every order has its expectation', () => {
    expect(ORDERS).toEqual(Object.keys(EXPECTED).sort())
    expect(Object.keys(KNOWN_OPEN).filter((name) => !(name in EXPECTED))).toEqual([])
  })

  it.each(ORDERS.filter((name) => !(name in KNOWN_OPEN)))('%s', (name) => {
    const expected = EXPECTED[name]!
    expect(comparable(drawsOf(name), expected), expected.why).toEqual(wanted(expected))
  })

  it('what is listed as known open is still open: take off the list what now comes out right', () => {
    const right = Object.keys(KNOWN_OPEN).filter((name) => {
      const expected = EXPECTED[name]!
      const is = JSON.stringify(comparable(drawsOf(name), expected))
      return is === JSON.stringify(wanted(expected))
    })
    expect(right).toEqual([])
  })

  it('at most a third has something to read before the needle, each listed with its reason', () => {
    const warned = ORDERS.filter((name) =>
      drawsOf(name).some(({ warnings }) => warnings.length > 0),
    )
    expect(ORDERS).toHaveLength(58)
    expect(warned.length).toBeLessThanOrEqual(58 / 3)
  })
})
