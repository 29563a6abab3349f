import { ok, type Result } from '../../core/basics/result.ts'
import { collectorId } from '../../core/order/collectorId.ts'
import type { Collector } from '../../core/order/order.ts'
import type { Command } from '../../core/protocol/commands.ts'
import type { DrawLog, Source } from '../../core/protocol/entry.ts'
import type { CheckedLog } from '../../core/log/readStored.ts'
import { recordNote } from '../../core/record/recordNote.ts'
import type { TextFile } from '../../ports/page.ts'
import type { AppActions } from '../appApi.ts'
import type { AppParts } from '../appDeps.ts'
import { createOneAtATime } from '../draw/oneAtATime.ts'
import type { RunningDraw } from '../draw/runningDraw.ts'
import { brokenText } from '../site/storageTexts.ts'
import { exposureText } from './exposureText.ts'
import { fhirText } from './fhirText.ts'
import { readRecord } from './readRecord.ts'
import { createRecordWriter } from './recordWriter.ts'
import { stripText } from './stripText.ts'
import { signedExport } from './signedExport.ts'
import { testInfo } from './testInfo.ts'
import { transactionText } from './transactionText.ts'

type RecordActions = Pick<AppActions, 'addAddendum' | 'addLater' | 'exportRecord'>

const ENDINGS = {
  note: 'txt',
  strip: 'svg',
  fhir: 'fhir.json',
  transaction: 'transaction.fhir.json',
  log: 'log.json',
  exposure: 'exposure.txt',
} as const

/** What can be done with a draw's record: read it, correct it by an addendum, take it out. */
export function createRecordActions(parts: AppParts, running: RunningDraw) {
  const { set, get, guarded } = parts
  const { testName, needsFasting } = testInfo(parts.site.catalogue)
  const { told } = parts.site.texts.screens
  const writer = createRecordWriter(parts)
  const once = createOneAtATime()

  /** The log as it stands: of the draw that runs when it is that one, else as it is stored. */
  async function read(drawId: string): Promise<Result<CheckedLog>> {
    const log = running.log(drawId)
    return log ? ok(log) : readRecord(parts, drawId)
  }

  const show = (log: CheckedLog): void =>
    set({ records: new Map(get().records).set(log.drawId, log) })

  async function add(drawId: string, command: Command, source?: Source): Promise<Result<DrawLog>> {
    const log = await writer.add(drawId, command, source)
    if (!log.ok) return log
    show(log.value)
    running.update(log.value)
    return log
  }

  const actions: RecordActions = {
    addAddendum: async (drawId, text, why, wrongPerson) => {
      const { collectorName, collectorInitials: initials } = get().settings
      const name = collectorName || told.unnamed
      const by: Collector = { id: collectorId({ name, initials }), name, initials }
      await add(drawId, {
        type: 'makeAddendum',
        by,
        text,
        why,
        ...(wrongPerson && { wrongPerson }),
      })
    },
    addLater: (drawId, command) => once(async () => void (await add(drawId, command))),

    exportRecord: async (drawId, format) => {
      const record = await read(drawId)
      if (!record.ok) return undefined
      const log = record.value
      const name = `${drawId}.${ENDINGS[format]}`
      const broken = log.fault && brokenText(log.fault, parts.storageTexts, parts.site.texts.log)
      if (format === 'note') {
        const { text } = recordNote(log, parts.site.texts, testName, needsFasting)
        return { name, type: 'text/plain', text: broken ? `${broken}\n\n${text}` : text }
      }
      if (format === 'strip') {
        return { name, type: 'image/svg+xml', text: stripText(log, parts.site.texts, broken) }
      }
      if (format === 'exposure') {
        const text = exposureText(log, parts.site)
        return text === undefined ? undefined : { name, type: 'text/plain', text }
      }
      if ((format === 'fhir' || format === 'transaction') && broken !== undefined) {
        // A bundle has no place for a doubt about all of it.
        set({ trouble: broken })
        return undefined
      }
      if (format === 'fhir') {
        const text = fhirText(log, parts.site, parts.sha256)
        return { name, type: 'application/fhir+json', text }
      }
      if (format === 'transaction') {
        const made = transactionText(log, parts.site, parts.sha256)
        if (made.ok) return { name, type: 'application/fhir+json', text: made.value }
        const { faults } = parts.site.texts.recordServer
        set({ trouble: made.faults.map((fault) => faults[fault]).join(' ') })
        return undefined
      }
      const signed = await guarded(told.unsigned, async (): Promise<TextFile> => ({
        name,
        type: 'application/json',
        text: await signedExport(log, get().settings.devicePrefix, parts),
      }))
      return signed.ok ? signed.value : undefined
    },
  }

  return { actions, read, show, add }
}
