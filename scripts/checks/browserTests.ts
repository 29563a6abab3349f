import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { ROOT } from './runTool.ts'

/** Tests that speak, listen or type at the pace of the real thing: on a busy machine they are heard too late. */
const HEARD = [
  'tests/e2e/talkative.e2e.ts',
  'tests/e2e/voice.e2e.ts',
  'tests/e2e/voiceHaste.e2e.ts',
  'tests/e2e/talkativeMicrophone.e2e.ts',
  'tests/e2e/voiceMicrophone.e2e.ts',
  // What a scanner types is told by the time between keys.
  'tests/e2e/keys.e2e.ts',
  'tests/adapters/speech/microphone.chromium.test.ts',
  'tests/adapters/sound/howler.chromium.test.ts',
]

/** Tests that mostly wait for clocks, and for what several pages tell each other. */
const WAITING = [
  'tests/e2e/day.e2e.ts',
  'tests/e2e/hub.e2e.ts',
  'tests/e2e/hubAttacks.e2e.ts',
  'tests/e2e/hubRefused.e2e.ts',
  'tests/e2e/hubShared.e2e.ts',
  'tests/e2e/crash.e2e.ts',
  'tests/e2e/offline.e2e.ts',
]

/** Long ones whose matter others touch too: the narrow run leaves them to the wide one. */
const WIDE_ONLY = [
  'tests/e2e/day.e2e.ts',
  'tests/e2e/hub.e2e.ts',
  'tests/e2e/hubAttacks.e2e.ts',
  'tests/e2e/hubRefused.e2e.ts',
  'tests/e2e/handOver.e2e.ts',
  'tests/e2e/hubShared.e2e.ts',
  'tests/e2e/talkative.e2e.ts',
  'tests/e2e/heldListening.e2e.ts',
  'tests/e2e/smallScreens.e2e.ts',
  'tests/e2e/series.e2e.ts',
  'tests/e2e/lock.e2e.ts',
  'tests/e2e/heel.e2e.ts',
  'tests/e2e/spanish.e2e.ts',
  'tests/e2e/staysLit.e2e.ts',
  'tests/e2e/versions.e2e.ts',
  'tests/e2e/faults.e2e.ts',
  'tests/scripts/promptLevels.chromium.test.ts',
  'tests/adapters/speech/vosk.chromium.test.ts',
]

export interface BrowserTests {
  readonly heard: readonly string[]
  readonly waiting: readonly string[]
  readonly others: readonly string[]
  /** Left out. */
  readonly left: readonly string[]
}

/**
 * The test files that drive Chromium, by what they ask of the machine.
 * @param wide whether nothing is left out
 * @throws Error when a file that is named here is no longer there
 */
export function browserTests(wide: boolean): BrowserTests {
  const files = readdirSync(join(ROOT, 'tests'), { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.(e2e|chromium\.test)\.ts$/.test(file))
    .map((file) => `tests/${file.replaceAll('\\', '/')}`)
  const gone = [...HEARD, ...WAITING, ...WIDE_ONLY].filter((file) => !files.includes(file))
  if (gone.length > 0) throw new Error(`There is no ${gone.join(', ')}.`)
  const left = wide ? [] : WIDE_ONLY
  const run = files.filter((file) => !left.includes(file))
  return {
    heard: HEARD.filter((file) => run.includes(file)),
    waiting: WAITING.filter((file) => run.includes(file)),
    others: run.filter((file) => !HEARD.includes(file) && !WAITING.includes(file)),
    left,
  }
}
