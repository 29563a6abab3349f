import type { Clock } from '../../ports/clock.ts'
import type { SoundTest } from '../../ports/sound.ts'

/** A test of the alarm, one at a time; whoever asks during one gets its outcome. */
export interface AlarmTest {
  /** @param play plays the alarm as soon as it can and hands over the id of that playing */
  run(play: (begun: (id: number) => void) => void): Promise<SoundTest>
  /** A sound has begun to be heard. */
  played(id: number): void
}

/**
 * @param limit_ms an alarm that has not begun by then is of no use
 * @param why what to answer in that case
 */
export function createAlarmTest(clock: Clock, limit_ms: number, why: () => SoundTest): AlarmTest {
  let playing: number | undefined
  let outcome: Promise<SoundTest> | undefined
  let end: (outcome: SoundTest) => void = () => undefined
  return {
    run(play) {
      if (outcome) return outcome
      outcome = new Promise((resolve) => {
        const cancel = clock.wakeAt(clock.read().mono_ms + limit_ms, () => end(why()))
        end = (how) => {
          cancel()
          playing = undefined
          outcome = undefined
          resolve(how)
        }
      })
      play((id) => (playing = id))
      return outcome
    },
    played(id) {
      if (id === playing) end('played')
    },
  }
}
