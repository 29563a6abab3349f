import { describe, expect, it } from 'vitest'
import { impossible } from '../../../../src/core/log/sense/impossible.ts'
import { unexplained } from '../../../../src/core/log/sense/unexplained.ts'
import { unusual } from '../../../../src/core/log/sense/unusual.ts'
import { exportLog, exportText } from '../../../../src/core/log/exportFile.ts'
import { readLog } from '../../../../src/core/log/readLog.ts'
import { verdictLines, verdictOf } from '../../../../src/core/log/verdict.ts'
import type { DrawLog } from '../../../../src/core/protocol/entry.ts'
import { fillText } from '../../../../src/core/basics/fillText.ts'
import { texts } from '../../../../src/data/en/texts.ts'
import { sampleKey, signWith } from '../../../support/sampleExport.ts'
import { playScenario, readScript, scenarioFiles } from '../../../support/scenarioSite.ts'
import {
  logOf,
  sampleLog,
  sampleOpening,
  sha256,
  straightLines,
  type Line,
} from '../../../support/sampleLog.ts'

const NOW_ms = Date.UTC(2026, 10, 26)
const signedAt = (ms: number, log: DrawLog) => [
  { entries: log.entries.length, trailer: { exportedAt: ms } as never },
]
const ids = (log: DrawLog, signed_ms = NOW_ms) =>
  unusual(log, signedAt(signed_ms, log), NOW_ms).map(({ id }) => id)
const added = (...add: readonly Line[]): DrawLog => sampleLog({ add })

const scenarios = scenarioFiles().map(({ name, text }) => {
  const reading = readScript(text)
  if (!reading.ok) throw new Error(`${name}: ${JSON.stringify(reading.faults)}`)
  return { name, log: playScenario(reading.value).log }
})

describe.each(scenarios)('a draw that was played: $name', ({ log }) => {
  it('holds nothing impossible and nothing that the app would not have recorded', () => {
    expect(impossible(log)).toBeUndefined()
    expect(unexplained(log)).toEqual([])
  })
})

describe('a draw that was made up', () => {
  it('shows where the app would have raised a flag and none stands', () => {
    // The band on before anybody was identified: the app records that with a flag beside it.
    const log = sampleLog({ without: ({ type }) => type === 'identifierChecked' })
    expect(unexplained(log).length).toBeGreaterThan(0)
  })
})

describe('what is unusual', () => {
  it.each([
    ['a tube that no plan has', added([158, { type: 'tubeOn', tubeId: 't9' }]), 'unplannedTube'],
    [
      'an entry taken back twice',
      added([60, { type: 'entryUndone', seq: 2 }], [61, { type: 'entryUndone', seq: 2 }]),
      'undoneTwice',
    ],
    [
      'a draw closed twice',
      added([390, { type: 'drawClosed', outcome: 'partial' }]),
      'closedTwice',
    ],
    ['a needle after the close', added([390, { type: 'needleIn', attempt: 2 }]), 'afterClose'],
    ['a clock that was set', added([60, { type: 'clockStepped', by_ms: 60_000 }]), 'clocksStepped'],
    ['a clock of another time', logOf(straightLines(), Date.UTC(2004, 0, 1)), 'oldClock'],
    [
      'a pause of more than a day',
      added([379, { type: 'fistNoted' }], [100_000, { type: 'fistNoted' }]),
      undefined,
    ],
  ])('%s is told and not refused', (_what, log, id) => {
    expect(ids(log, log.entries.at(-1)!.at.at_ms).filter((each) => each !== 'unexplained')).toEqual(
      id ? [id] : [],
    )
  })

  it('is a pause of more than a day before the close', () => {
    const late = straightLines(sampleOpening()).map(([at_s, ...rest]): Line => [
      at_s > 350 ? at_s + 100_000 : at_s,
      ...rest,
    ])
    expect(ids(logOf(late))).toContain('longPause')
  })

  it('is a signature from the future, or from before the last entry', () => {
    const log = sampleLog()
    const last_ms = log.entries.at(-1)!.at.at_ms
    expect(ids(log, NOW_ms + 2 * 86_400_000)).toContain('signedAhead')
    expect(ids(log, last_ms - 1)).toContain('signedBefore')
    expect(ids(log, last_ms)).not.toContain('signedBefore')
  })

  it('is told in words, with the numbers of entries and never more than ten', () => {
    const many = added(...Array.from({ length: 15 }, (): Line => [390, { type: 'bandOn' }]))
    const found = unusual(many, [], NOW_ms).find(({ id }) => id === 'afterClose')
    expect(found && fillText(texts.log.unusual.afterClose, found.values)).toBe(
      'Unusual: 15 things were done at the arm after the draw was closed (entries 40, 41, 42, 43, 44, 45, 46, 47, 48, 49, ...).',
    )
  })

  it('is told in the verdict, after what is proven and what is not', async () => {
    const key = sampleKey()
    const log = added([60, { type: 'clockStepped', by_ms: 60_000 }])
    const file = await exportLog(log, NOW_ms, key, signWith(key))
    const read = readLog(exportText(file), sha256)
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    const lines = verdictLines(
      verdictOf(read.value, () => ({ kind: 'thisDevice' }), NOW_ms),
      texts.log,
    )
    expect(lines[1]).toBe(`Key ${key.keyId} is the key of this device.`)
    expect(lines.join('\n')).toMatch(/Not proven: that what was recorded.*\n.*a clock was set/)
    expect(lines.join('\n')).not.toContain('whose key')
  })
})
