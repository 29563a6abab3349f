import { describe, expect, it } from 'vitest'
import { readScript } from '../../support/scenarioSite.ts'

const HEAD = 'title: A title\nabout: A sentence.\ntests: cbc\n'

const linesOf = (script: string) => {
  const reading = readScript(HEAD + script)
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults))
  return reading.value.lines
}
const errorsOf = (text: string) => {
  const reading = readScript(text)
  return reading.ok ? [] : reading.faults
}

describe('a script of several draws', () => {
  const SERIES = `${HEAD}hour: 6 min\n0:05 say band on\nsitting 2 after 1:30\n0:03 say skin clean\n`

  it('has one part a draw, each with times from its own opening', () => {
    const reading = readScript(SERIES)
    if (!reading.ok) throw new Error(JSON.stringify(reading.faults))
    const { lines, later = [], hour_min } = reading.value
    expect(hour_min).toBe(6)
    expect(lines.map(({ at_ms }) => at_ms)).toEqual([5000])
    expect(later.map(({ after_ms }) => after_ms)).toEqual([90_000])
    expect(later[0]?.lines.map(({ at_ms, line }) => [at_ms, line])).toEqual([[3000, 7]])
  })

  it.each([
    ['6 min', '6', 'How long an hour lasts'],
    ['6 min', '0 min', 'How long an hour lasts'],
    ['sitting 2 after 1:30', 'sitting 3 after 1:30', 'Sitting 2 comes next.'],
    ['sitting 2 after 1:30', 'sitting 2 after soon', '"soon" is no time'],
    ['0:03 say skin clean', 'say skin clean', 'needs a time'],
  ])('with %s as %s is told: %s', (right, wrong, told) => {
    const [fault] = errorsOf(SERIES.replace(right, wrong))
    expect(fault?.message).toContain(told)
  })
})

it('a script says what it trains; a word that is none is told', () => {
  const SCRIPT = `${HEAD}trains: tubes\n0:05 say band on\n`
  const reading = readScript(SCRIPT)
  expect(reading.ok && reading.value.trains).toBe('tubes')
  expect(errorsOf(SCRIPT.replace('tubes', 'juggling'))).toEqual([
    { line: 4, message: expect.stringContaining('It trains one of whole, identity') as string },
  ])
})

describe('a scenario file', () => {
  it('has headers, then lines with times; a line without one has the time of the line above', () => {
    const lines = linesOf(
      '\n# a comment\n0:05  say band on   # another\n      expect screen Identity\n1:02:03 wait\n',
    )
    expect(lines.map(({ at_ms, line, kind }) => [at_ms, line, kind])).toEqual([
      [5000, 6, 'do'],
      [5000, 7, 'expect'],
      [3_723_000, 8, 'wait'],
    ])
  })

  it.each([
    ['0:01 say Band On', { via: 'say', doing: { kind: 'command', command: { type: 'bandOn' }, key: 'bandOn' } }],
    ['0:01 touch Left arm', { doing: { kind: 'command', command: { type: 'chooseArm', arm: 'left' }, key: 'chooseArm:left' } }],
    ['0:01 key Space', { doing: { kind: 'main' } }],
    ['0:01 key 2', { doing: { kind: 'choice', number: 2 } }],
    ['0:01 scan tube 2', { doing: { kind: 'label', tube: 2 } }],
    ['0:01 write short 1.5 mL', { doing: { kind: 'command', command: { type: 'tubeShortBy', estimate_mL: 1.5 } } }],
    ['0:01 write more blood by Dr. A because septic', { doing: { kind: 'command', command: { type: 'approveBlood', by: 'Dr. A', why: 'septic' } } }],
    ['0:01 write dropped tube 1', { doing: { kind: 'lost', why: 'droppedTube', tube: 1 } }],
    ['0:01 write decision stop by Dr. A', { doing: { kind: 'command', command: { type: 'nameDecision', decision: 'stop', by: 'Dr. A' } } }],
    ['0:01 crash 0:20', { kind: 'crash', away_ms: 20_000 }],
    ['0:01 clock -1:00:00', { kind: 'clock', by_ms: -3_600_000 }],
    ['0:01 expect no flag Mixed', { kind: 'expect', what: 'no flag', text: 'Mixed' }],
  ])('%s', (script, expected) => {
    expect(linesOf(script)[0]).toMatchObject(expected)
  }) // prettier-ignore

  it.each([
    ['0:01 say abracadabra', 4, 'no phrase'],
    ['0:01 touch Abracadabra', 4, 'no button'],
    ['0:01 whistle', 4, 'nothing a line can begin with'],
    ['say band on', 4, 'needs a time'],
    ['0:99 wait', 4, 'no time'],
    ['1:00 wait\n0:59 wait', 5, 'before the line above'],
    ['0:01 sleep', 4, 'how long'],
    ['0:01 expect weather Fine', 4, 'comes one of'],
    ['0:01 write poem', 4, 'is written is one of'],
  ])('%s is an error of that line', (script, line, message) => {
    const [first] = errorsOf(HEAD + script)
    expect(first?.line).toBe(line)
    expect(first?.message).toContain(message)
  })

  it('tells all that is wrong at once, headers too', () => {
    const errors = errorsOf('title: T\ntitle: T\nnot left: dislike\n0:01 say xyzzy\n')
    expect(errors.map(({ message }) => message).join(' ')).toMatch(
      /twice.*no phrase.*about.*tests.*reason/,
    )
  })
})
