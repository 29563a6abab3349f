import { describe, expect, it } from 'vitest'
import {
  ALWAYS_OPEN,
  COMMAND_TABLE,
  commandsWhere,
  isSteering,
  rowOf,
  SAFETY_COMMANDS,
} from '../../../src/core/protocol/commandTable.ts'
import { CHOICE_KEYS, PLAIN_COMMANDS } from '../../../src/core/protocol/commands.ts'
import { EXCEPTION_TABLE } from '../../../src/core/protocol/exceptionTable.ts'
import { EXCEPTION_KINDS } from '../../../src/core/protocol/exceptions.ts'
import {
  drawDriver,
  toBandage,
  TO_HANDS,
  toNeedleIn,
  type DrawDriver,
} from '../../support/drawDriver.ts'

describe('the table of commands', () => {
  it('has one row for each command and none besides', () => {
    expect(Object.keys(COMMAND_TABLE).sort()).toEqual([...PLAIN_COMMANDS, ...CHOICE_KEYS].sort())
  })

  it('keeps every safety command open, in the safety row, and shown as something to stop for', () => {
    expect(SAFETY_COMMANDS.length).toBeGreaterThan(3)
    for (const key of SAFETY_COMMANDS) {
      expect(rowOf(key)).toMatchObject({ by: 'rule', alwaysOpen: 'safetyRow', tone: 'stop' })
    }
  })

  it('counts as safety commands those of the severe exceptions that can come at any moment', () => {
    const severe = EXCEPTION_KINDS.filter((kind) => EXCEPTION_TABLE[kind].severity === 'severe')
    expect(SAFETY_COMMANDS.filter((key) => !(severe as readonly string[]).includes(key))).toEqual(
      [],
    )
  })

  it('names as steering what leaves the record alone', () => {
    const draw = drawDriver()
    toNeedleIn(draw)
    for (const key of commandsWhere(({ by }) => by === 'app')) {
      expect(isSteering(key)).toBe(true)
      expect(draw.tries(key), key).toEqual({ kind: 'record', events: [] })
    }
  })
})

describe('what is always open', () => {
  it.each([
    ['before the needle', (draw) => draw.does('confirmPatient')],
    ['with the needle in', toNeedleIn],
    ['at the labels', toBandage],
  ] satisfies [string, (draw: DrawDriver) => void][])('may be said %s', (_name, to) => {
    const draw = drawDriver()
    to(draw)
    expect(draw.open().always).toEqual(ALWAYS_OPEN)
  })
})

describe('after the close', () => {
  it('only what its row allows is recorded', () => {
    const never = commandsWhere(({ by, afterClose }) => by === 'rule' && afterClose !== true)
    expect(never.length).toBeGreaterThan(20)
    for (const key of never) {
      const draw = drawDriver()
      toBandage(draw)
      draw.does('labelMatches', 'labelMatches', 'labelsDone', 'aftercareTold', 'specimensRacked')
      expect(draw.state().closed, key).toBeDefined()
      expect(draw.tries(key).kind, key).toBe('impossible')
    }
  })

  it('trouble with a row for it is, also where no needle was in', () => {
    const draw = drawDriver()
    draw.does(...TO_HANDS, 'endDraw')
    for (const key of ['faint', 'needlestick', 'nausea', 'swelling', 'sharpPain'] as const) {
      expect(rowOf(key).afterClose, key).toBe(true)
      expect(draw.tries(key).kind, key).toBe('record')
    }
  })
})
