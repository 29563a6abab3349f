import type { Text } from '../../core/basics/fillText.ts'
import type { DayRefusal } from '../../core/day/decideDay.ts'
import type { Likeness } from '../../core/day/likeness.ts'
import type { PlaceKind } from '../../core/day/listedOrder.ts'
import type { OrderStatus } from '../../core/day/orderStatus.ts'
import type { ApartReason } from '../../core/day/together.ts'
import type { PlaceReason } from '../../core/day/whatFirst.ts'
import type { SuppliesTexts } from './suppliesTexts.ts'

type RoundColumn = 'place' | 'due' | 'patient' | 'born' | 'record' | 'order' | 'tests' | 'done'

/** `day.json` of a language: the day's list. */
export interface DayTexts {
  readonly language: string
  readonly title: string
  readonly about: string
  readonly none: string
  readonly add: string
  /** On the form of an order that is on the list already. */
  readonly keep: string
  readonly addFiles: string
  readonly addFolder: string
  readonly dropHere: string
  readonly demoDay: string
  readonly demoAbout: string
  readonly showNames: string
  readonly hideNames: string
  readonly hidden: string
  readonly callNext: string
  /** `{name}` */
  readonly callOf: string
  readonly call: string
  readonly callAgain: string
  /** `{name}` */
  readonly callAgainOf: string
  readonly begin: string
  /** `{name}` */
  readonly beginOf: string
  readonly goTo: string
  readonly more: string
  readonly edit: string
  readonly notFound: string
  readonly putOff: string
  readonly until: string
  readonly untilHint: string
  readonly refuse: string
  readonly cancel: string
  readonly cancelBy: string
  readonly reopen: string
  readonly join: string
  readonly part: string
  readonly keepBoth: string
  readonly listRest: string
  readonly why: string
  readonly next: string
  readonly others: string
  /** The paper for wards and homes. */
  readonly round: {
    readonly print: string
    readonly title: string
    readonly about: string
    readonly columns: Readonly<Record<RoundColumn, string>>
  }
  readonly done: string
  /** `{n}` */
  readonly showMore: Text
  readonly status: Readonly<Record<OrderStatus, string>>
  /** `{at}` is when it is due. */
  readonly place: Readonly<Record<PlaceReason, string>>
  /** `{time}` */
  readonly due: string
  /** `{min}` */
  readonly tolerance: string
  readonly where: Readonly<Record<PlaceKind, string>>
  readonly fasting: string
  /** A question before the tubes are planned. */
  readonly fastingAsked: string
  /** `{time}` */
  readonly putOffUntil: string
  /** `{why}` */
  readonly because: string
  /** `{n}`, `{numbers}` */
  readonly together: string
  /** `{number}`, `{why}` */
  readonly apart: string
  readonly apartWhy: Readonly<Record<ApartReason, string>>
  /** `{number}` */
  readonly twice: string
  /** Listed before and drawn: `{number}`, `{status}`, `{at}`. */
  readonly twiceDone: string
  /** Of another patient: `{number}`, `{name}`, `{born}`. */
  readonly twiceOther: string
  /** `{at}`, `{by}`, `{why}` */
  readonly cancelledMeanwhile: string
  /** `{at}`, `{why}` */
  readonly refusedMeanwhile: string
  /** `{name}`, `{born}`, `{how}` */
  readonly alike: string
  readonly likeness: Readonly<Record<Likeness, string>>
  readonly recollection: string
  /** `{drawId}`, `{why}` */
  readonly recollects: string
  /** `{tests}` */
  readonly missing: string
  /** `{tests}`, `{why}` */
  readonly rejected: string
  /** Why a recollection is made where no laboratory turned anything down. */
  readonly notDrawn: string
  /** Questions that a file left open. */
  readonly questions: Text
  readonly changed: string
  readonly notTaken: string
  readonly understood: string
  /** `{point}`, `{name}` */
  readonly sitting: string
  /** What comes after it: `{points}`. */
  readonly laterSittings: string
  /** `{n}` to draw. */
  readonly read: {
    readonly count: Text
    readonly nobody: string
    /** `{who}`, `{place}` */
    readonly next: string
    /** `{place}` */
    readonly nextUnnamed: string
  }
  readonly supplies: SuppliesTexts
  readonly refusals: Readonly<Record<DayRefusal, string>>
  readonly told: {
    /** `{n}` orders. */
    readonly added: Text
    readonly unread: string
    /** `{day}`, `{seq}` of the first bad entry. */
    readonly broken: string
    /** `{file}`, `{reasons}` */
    readonly fileRefused: string
    /** The same of one order in it, with `{where}` it stands there. */
    readonly pieceRefused: string
    readonly elsewhere: string
    readonly otherPatient: string
    readonly inChair: string
    /** The same order stands there already; with `{file}` and `{where}`. */
    readonly sameAgain: string
    readonly nobodyNext: string
    /** A further sample of a series comes first: `{what}`, `{at}`. */
    readonly sittingNext: string
    /** Orders of the draw that runs were ended meanwhile: `{number}`, `{by}`, `{why}`. */
    readonly cancelledInChair: string
    readonly refusedInChair: string
    /** `{number}` */
    readonly changedInChair: string
    /** `{typed}` */
    readonly noTime: string
  }
}
