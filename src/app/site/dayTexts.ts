import type { Text } from '../../core/basics/fillText.ts'
import type { Standing } from '../../core/day/dayState.ts'
import type { DayRefusal } from '../../core/day/decideDay.ts'

/** `day.json` of a language: the day's list. */
export interface DayTexts {
  readonly language: string
  readonly title: string
  readonly add: string
  readonly addFiles: string
  readonly standing: Readonly<Record<Standing, string>>
  readonly cancel: string
  readonly cancelBy: string
  readonly why: string
  readonly refusals: Readonly<Record<DayRefusal, string>>
  readonly told: {
    /** `{n}` orders. */
    readonly added: Text
    readonly unread: string
    /** `{day}`, `{seq}` of the first bad entry. */
    readonly broken: string
    /** `{file}`, `{reasons}` */
    readonly fileRefused: string
  }
}
