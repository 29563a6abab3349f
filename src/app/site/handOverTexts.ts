import type { Text } from '../../core/basics/fillText.ts'
import type { AccessFault } from '../../core/handOver/accessFault.ts'
import type { HandedKind, LeftAnswer, RowState } from '../../core/handOver/handOverRow.ts'
import type { HandOverLogin, HandOverState } from '../../core/handOver/handOverState.ts'
import type { TaskTexts } from '../../core/handOver/orderTask.ts'
import type { ServerTrouble } from '../../core/handOver/serverAnswer.ts'

/** `handOver.json` of a language: what goes to the site's record server, and what comes from there. */
export interface HandOverTexts {
  readonly title: string
  readonly about: string
  /** In the settings. */
  readonly open: string
  /** What the record server is called where something was done there. */
  readonly server: string
  /** `{server}`, `{before}`, `{faults}` */
  readonly states: Readonly<Record<HandOverState, string>>
  readonly login: Readonly<Record<HandOverLogin, string>>
  readonly switchOn: string
  readonly switchOff: string
  readonly pause: string
  readonly goOn: string
  readonly sendNow: string
  readonly keyFile: string
  /** `{time}` */
  readonly nextTry: string
  readonly trouble: Readonly<Record<ServerTrouble | 'conflict' | 'refused', string>>
  readonly access: Readonly<Record<AccessFault, string>>
  /** `{status}` */
  readonly status: string
  /** `{text}` */
  readonly said: string
  readonly damaged: string
  readonly parts: Readonly<
    Record<'waiting' | 'refused' | 'orders' | 'left' | 'kept', { title: string; about: string }>
  >
  readonly kinds: Readonly<Record<HandedKind, string>>
  readonly rowStates: Readonly<Record<RowState, string>>
  /** `{by}` */
  readonly droppedBy: string
  readonly none: string
  /** `{n}` */
  readonly count: Text
  /** `{n}` */
  readonly refusedCount: Text
  /** `{n}` draws that nobody has closed. */
  readonly stillOpen: Text
  /** `{n}` */
  readonly more: Text
  readonly again: string
  /** `{what}` */
  readonly againOf: string
  readonly againAll: string
  readonly drop: string
  /** `{what}` */
  readonly dropOf: string
  readonly dropBy: string
  readonly dropAbout: string
  readonly dropYes: string
  readonly keepIt: string
  readonly sendEarlier: string
  readonly openChart: string
  readonly columns: Readonly<Record<'at' | 'what' | 'size' | 'server' | 'answer', string>>
  readonly answers: Readonly<Record<LeftAnswer, string>>
  /** `{kB}` */
  readonly size: string
  readonly orders: {
    readonly fetch: string
    readonly fetching: string
    readonly none: string
    readonly never: string
    /** `{time}` */
    readonly failed: string
    /** `{time}`, `{n}` */
    readonly last: Text
    readonly understood: string
  }
  /** Of orders that devices with a list of their own have, `{device}`. */
  readonly elsewhere: {
    readonly drawn: string
    readonly partDrawn: string
    readonly inDraw: string
    readonly unknown: string
    /** `{n}` */
    readonly count: Text
  }
  readonly task: Pick<TaskTexts, 'title' | 'because' | 'owner'>
  readonly told: {
    readonly unread: string
    readonly unkept: string
    readonly morePages: string
    /** `{where}`, `{reasons}` */
    readonly refused: string
    /** `{number}` */
    readonly notThere: string
    /** `{status}` as the record server has it. */
    readonly endedWhy: string
    /** `{number}`, `{why}` */
    readonly ended: string
    readonly partEnded: string
    readonly inChair: string
    /** And `{tests}`. */
    readonly testsInChair: string
    readonly testsEnded: string
    /** `{drawId}` */
    readonly notErased: string
    readonly launchedOff: string
    /** `{why}` */
    readonly launchFailed: string
  }
}
