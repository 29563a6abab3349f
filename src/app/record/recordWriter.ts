import { createTurns } from '../../core/basics/turns.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { faulty, ok, type Result } from '../../core/basics/result.ts'
import type { CheckedLog } from '../../core/log/readStored.ts'
import type { Command } from '../../core/protocol/commands.ts'
import type { DrawLog, Source } from '../../core/protocol/entry.ts'
import { isClosed } from '../../core/protocol/isClosed.ts'
import type { AppParts } from '../appDeps.ts'
import { resumeDrawSession } from '../draw/drawSession.ts'
import { readRecord } from './readRecord.ts'

export interface RecordWriter {
  /**
   * Adds to the record of a closed draw, by touch where nothing else is said. Answers the whole record as it now
   * stands; where nothing was added the person is told why.
   */
  add(drawId: string, command: Command, source?: Source): Promise<Result<DrawLog>>
}

/**
 * The one place through which anything is written into a record after its draw was closed. What stands in the log is
 * read again each time, and one thing is added after another, so that none overwrites or loses another.
 */
export function createRecordWriter(parts: AppParts): RecordWriter {
  const { get, set, site, clinic } = parts
  const inTurn = createTurns()

  function refuse(text: string): Result<DrawLog> {
    set({ trouble: text })
    return faulty([text])
  }

  async function add(drawId: string, command: Command, source: Source): Promise<Result<DrawLog>> {
    const far = get().others.find((other) => other.drawId === drawId)
    if (far || clinic.load(drawId)) {
      const device = far?.deviceName ?? site.texts.clinic.somebody
      return refuse(fillText(site.texts.clinic.elsewhere.written, { device }))
    }
    const read = await readRecord(parts, drawId)
    if (!read.ok) return read
    const { fault }: CheckedLog = read.value
    if (fault) return refuse(site.texts.screens.told.damaged)
    if (!isClosed(read.value)) return refuse(site.words.impossible['notClosed'] ?? '')
    const session = resumeDrawSession(parts, read.value)
    const decision = await session.dispatch(command, source, undefined, true)
    session.stop()
    if (decision.kind === 'impossible') return refuse(site.words.impossible[decision.why] ?? '')
    const before = read.value.entries.length
    const flags = session
      .log()
      .entries.flatMap(({ seq, event }) =>
        seq > before && event.type === 'flagRaised' ? [site.words.flags[event.flag] ?? ''] : [],
      )
    if (flags.length > 0) set({ trouble: flags.join(' ') })
    return ok(session.log())
  }

  return {
    add: (drawId, command, source = 'touch') => inTurn(() => add(drawId, command, source)),
  }
}
