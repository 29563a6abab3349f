import { exportLog, exportText } from '../../core/log/exportFile.ts'
import { readLog } from '../../core/log/readLog.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import type { Collector } from '../../core/order/order.ts'
import { writeNote } from '../../core/record/note.ts'
import type { AppActions, AppState } from '../appApi.ts'
import { createDrawSession } from '../draw/drawSession.ts'
import { blankDraft } from '../order/planInput.ts'
import { readOrder } from '../order/readOrder.ts'
import { fhirText } from './fhirText.ts'
import { testInfo } from './testInfo.ts'
import type { AppDeps } from '../appDeps.ts'

type RecordActions = Pick<
  AppActions,
  'openRecord' | 'addAddendum' | 'exportRecord' | 'importLog' | 'importOrder'
>

export interface RecordDeps extends AppDeps {
  readonly set: (change: Partial<AppState>) => void
  readonly get: () => AppState
  readonly guarded: <T>(what: string, work: () => Promise<T>) => Promise<T | undefined>
  readonly refreshDraws: () => Promise<void>
}

/** What can be done with a stored draw: read it, correct it by an addendum, take it out, bring one in. */
export function createRecordActions(deps: RecordDeps): RecordActions {
  const { set, get, guarded, logStore } = deps
  const { testName } = testInfo(deps.site.catalogue)

  const load = async (drawId: string): Promise<DrawLog | undefined> => {
    const log = await guarded('The draw cannot be read.', () => logStore.load(drawId))
    if (!log) set({ trouble: `Draw ${drawId} is not stored on this device.` })
    return log
  }

  return {
    openRecord: async (drawId) => {
      const record = await load(drawId)
      if (record) set({ record, screen: 'chart' })
    },

    addAddendum: async (text, why) => {
      const { record, settings } = get()
      if (!record) return
      const name = settings.collectorName || 'not named'
      const by: Collector = {
        id: settings.collectorInitials || name,
        name,
        initials: settings.collectorInitials,
      }
      const session = createDrawSession(
        {
          ...deps,
          store: logStore,
          onChange: () => undefined,
          onUnsaved: (trouble) => set({ trouble }),
        },
        record,
      )
      const decision = await session.dispatch({ type: 'makeAddendum', by, text, why }, 'touch')
      if (decision.kind === 'impossible') {
        set({ trouble: deps.site.words.impossible[decision.why] ?? decision.why })
        return
      }
      set({ record: session.log() })
    },

    exportRecord: async (format) => {
      const { record } = get()
      if (!record) return undefined
      const name = `${record.drawId}.${format === 'note' ? 'txt' : format === 'fhir' ? 'fhir.json' : 'log.json'}`
      if (format === 'note') {
        const { text } = writeNote(record, deps.site.noteTemplate, testName)
        return { name, type: 'text/plain', text }
      }
      if (format === 'fhir') {
        return {
          name,
          type: 'application/fhir+json',
          text: fhirText(record, deps.site, deps.sha256),
        }
      }
      return guarded('The log cannot be signed.', async () => {
        const key = await deps.deviceKey.identity()
        const now_ms = deps.clock.read().wall_ms
        const file = await exportLog(record, now_ms, key, (text) => deps.deviceKey.sign(text))
        return { name, type: 'application/json', text: exportText(file) }
      })
    },

    importLog: async (text) => {
      const result = readLog(text, deps.sha256)
      if ('error' in result) {
        set({ trouble: `The log is refused: ${result.error.reason}` })
        return
      }
      const { log, trailer, signedText } = result.read
      const genuine = await guarded('The signature cannot be checked.', () =>
        deps.verifySignature(trailer.publicKey, signedText, trailer.signature),
      )
      if (genuine === undefined) return
      if (!genuine) {
        set({ trouble: 'The log is refused: its signature does not fit.' })
        return
      }
      const done = await guarded('The log cannot be taken in.', async () => {
        await logStore.adopt(log, text)
        return true
      })
      if (!done) return
      set({ record: log, screen: 'chart' })
      await deps.refreshDraws()
    },

    importOrder: (text) => {
      const reading = readOrder(text, deps.site.catalogue)
      if (!reading.ok) {
        set({ trouble: `The order is refused: ${reading.errors.join(' ')}` })
        return
      }
      set({
        draft: { ...blankDraft(deps.site), ...reading.draft },
        draftErrors: [],
        plan: undefined,
        screen: 'order',
      })
    },
  }
}
