/**
 * What the protocol costs while a draw runs: folding the whole log after a reload, deciding on one command, and
 * working out everything that may be said. Medians over an invented draw of three tubes with a second attempt and a
 * long band, against parsing the same log's JSON in the same run.
 */
import { performance } from 'node:perf_hooks'
import type { LogEntry } from '../../src/core/protocol/entry.ts'
import { decide } from '../../src/core/protocol/decide.ts'
import { dueCues } from '../../src/core/protocol/dueCues.ts'
import { replay } from '../../src/core/protocol/evolve.ts'
import { openCommands } from '../../src/core/protocol/openCommands.ts'
import { drawDriver, nextByTheScreen, TO_CLEAN } from '../support/drawDriver.ts'
import { samplePlan } from '../support/samplePlan.ts'
import { stampAfter } from '../../src/core/time/stamp.ts'

const RUNS = 400

function median_us(work: () => unknown, times = 1): number {
  const measured = Array.from({ length: RUNS }, () => {
    const start = performance.now()
    for (let i = 0; i < times; i++) work()
    return ((performance.now() - start) * 1000) / times
  }).sort((a, b) => a - b)
  return Math.round((measured[RUNS / 2] ?? NaN) * 10) / 10
}

const draw = drawDriver({ plan: samplePlan() })
draw.does(...TO_CLEAN, 'bandOn')
draw.advance(180_000)
draw.does(
  'needleIn',
  'noFlash',
  'bandOff',
  'needleOut',
  'goBack',
  'flashSeen',
  'goBack',
  'pressureOn',
)
const filling: (readonly LogEntry[])[] = []
while (!draw.state().closed) {
  const [asked] = nextByTheScreen(draw.state())
  if (!asked) break
  draw.advance(20_000)
  draw.tries(asked)
  if (draw.step() === 'filling') filling.push([...draw.log()])
}
const log = draw.log()
const text = JSON.stringify(log)
const mid = replay(filling[0] ?? log)
const now = stampAfter(mid.last.at, draw.now())

const parse_us = median_us(() => JSON.parse(text) as unknown)
const replay_us = median_us(() => replay(log))
const open_us = median_us(() => openCommands(mid, now))
const decide_us = median_us(() => decide(mid, { type: 'tubeFull' }, now), 50)
const dueCues_us = median_us(() => dueCues(mid, draw.now()), 50)
const ratio = (us: number): number => Math.round((us / parse_us) * 1000) / 1000

console.log(
  JSON.stringify({
    entries: log.length,
    takenBack: log.filter(({ event }) => event.type === 'entryUndone').length,
    parseJson_us: parse_us,
    replay_us,
    openCommands_us: open_us,
    decide_us,
    dueCues_us,
    replayToParse: ratio(replay_us),
    openCommandsToParse: ratio(open_us),
    decideToParse: ratio(decide_us),
  }),
)
