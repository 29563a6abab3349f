import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { ROOT } from './runTool.ts'

/** Tests that mostly wait: they speak, listen or keep clocks at the pace of the real thing. */
const REAL_TIME = [
  'tests/e2e/talkative.e2e.ts',
  'tests/e2e/voice.e2e.ts',
  'tests/e2e/voiceHaste.e2e.ts',
  'tests/e2e/talkativeMicrophone.e2e.ts',
  'tests/e2e/voiceMicrophone.e2e.ts',
  'tests/e2e/crash.e2e.ts',
  'tests/e2e/offline.e2e.ts',
  'tests/adapters/speech/microphone.chromium.test.ts',
  'tests/adapters/sound/howler.chromium.test.ts',
]

export interface BrowserTests {
  readonly realTime: readonly string[]
  readonly others: readonly string[]
}

/**
 * The test files that drive Chromium, those that wait in real time apart.
 * @throws Error when a file that is named here is no longer there
 */
export function browserTests(): BrowserTests {
  const files = readdirSync(join(ROOT, 'tests'), { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.(e2e|chromium\.test)\.ts$/.test(file))
    .map((file) => `tests/${file.replaceAll('\\', '/')}`)
  const gone = REAL_TIME.filter((file) => !files.includes(file))
  if (gone.length > 0) throw new Error(`There is no ${gone.join(', ')}.`)
  return { realTime: REAL_TIME, others: files.filter((file) => !REAL_TIME.includes(file)) }
}
