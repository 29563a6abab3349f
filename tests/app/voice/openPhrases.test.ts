import { describe, expect, it } from 'vitest'
import { openPhrases } from '../../../src/app/voice/openPhrases.ts'
import type { Ask } from '../../../src/core/protocol/asks.ts'
import { ALWAYS_OPEN, SAFETY_COMMANDS } from '../../../src/core/protocol/commandTable.ts'
import type { OpenCommands } from '../../../src/core/protocol/openCommands.ts'
import book from '../../../src/data/en/phrases.json'

const open: OpenCommands = {
  main: 'needleIn',
  step: ['bandOff'],
  always: ALWAYS_OPEN,
  happened: ['tubeOn'],
}
const keys = (mode: { asking: Ask | undefined; paused: boolean }): readonly string[] => [
  ...new Set(openPhrases(open, book, mode).values()),
]

describe('what may be said', () => {
  it('is what the step asks for, its other choices, and what is always open', () => {
    const expected = ['needleIn', 'bandOff', ...ALWAYS_OPEN].filter((key) => key !== 'resumeListening') // prettier-ignore
    expect(keys({ asking: undefined, paused: false })).toEqual(expected)
  })

  it('is the answers and what is always open while a question is open', () => {
    expect(keys({ asking: 'tubesLeft', paused: false })).toEqual(['confirmYes', 'confirmNo', ...ALWAYS_OPEN]) // prettier-ignore
  })

  it('is why as well, where that is what is asked', () => {
    const said = keys({ asking: 'endUnfinished', paused: false })
    expect(said).toEqual(
      expect.arrayContaining(['confirmYes', 'confirmNo', 'endBecause:absent', 'endBecause:noVein']),
    )
    expect(said).not.toContain('needleIn')
  })

  it.each(['tubesLeft', undefined] as const)(
    'is the safety phrases and what ends it in a pause, with a question open or not (%s)',
    (asking) => {
      expect(keys({ asking, paused: true }).toSorted()).toEqual(
        ['resumeListening', ...SAFETY_COMMANDS].toSorted(),
      )
    },
  )

  it('has every wording of each command', () => {
    const phrases = [...openPhrases(open, book, { asking: undefined, paused: true }).keys()]
    expect(phrases).toEqual(expect.arrayContaining(['feeling faint', 'patient faint']))
  })
})
