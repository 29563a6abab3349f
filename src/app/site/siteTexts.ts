import type { Text } from '../../core/basics/fillText.ts'

/** What can be wrong with a table as CSV, before its meaning is looked at. */
export type TableFaultCode =
  | 'tooLarge'
  | 'columnMissing'
  | 'columnUnknown'
  | 'columnTwice'
  | 'rowLength'
  | 'openQuote'
  | 'strayQuote'
  | 'unreadableRow'
  | 'tooLong'
  | 'notANumber'
  | 'numberMissing'
  | 'unknownSpecimen'
  | 'unknownWord'
  | 'yesNo'
  | 'noRows'
  | 'noLot'
  | 'lotTooLong'
  | 'lotTwice'

/** What can be wrong with the shape of a JSON file. */
export type JsonFaultCode =
  | 'notJson'
  | 'keyMissing'
  | 'keyUnknown'
  | 'wrongType'
  | 'notOneOf'
  | 'noDate'
  | 'notFinite'
  | 'notAboveZero'
  | 'belowZero'
  | 'empty'
  | 'tooLong'
  | 'unreadable'
  | 'aboveMost'
  | 'otherwise'

export type JsonType = 'string' | 'number' | 'boolean' | 'Array' | 'Object' | 'null'

export type LimitFaultCode =
  'noLimits' | 'unknownLimit' | 'notANumber' | 'notWhole' | 'outOfRange' | 'notAbove' | 'below'

/** The words for the files and settings of a site in one language. */
export interface SiteTexts {
  readonly language: string
  readonly tables: Readonly<Record<TableFaultCode, Text>>
  readonly json: Readonly<Record<JsonFaultCode, Text>> & {
    /** Types of JSON within such a sentence. */
    readonly types: Readonly<Record<JsonType, string>>
  }
  readonly limits: Readonly<Record<LimitFaultCode, Text>>
  /** The source of a limit for which the site named none. */
  readonly siteSource: string
  /** What a person is told when something kept on this device does not read. */
  readonly kept: Readonly<Record<'settings' | 'catalogue' | 'limits' | 'laboratories', Text>> & {
    readonly fillCorrections: string
    readonly ownVoices: string
  }
}
