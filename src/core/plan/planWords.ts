import { shownNumber } from '../basics/shownNumber.ts'
import { defined } from '../basics/defined.ts'
import { fillText, type Text, type TextValues } from '../basics/fillText.ts'
import type { PlanNotice } from './plan.ts'
import type { PlanNoticeCode, PlanTexts } from './planTexts.ts'

/** A notice with its text filled in. */
export function notice(
  code: PlanNoticeCode,
  text: Text,
  values: TextValues = {},
  source?: string,
): PlanNotice {
  return defined({ code, text: fillText(text, values), source })
}

/** Names as a list in the language's own way: all of up to three, else the first two and how many more there are. */
export function named(names: readonly string[], { language, more }: PlanTexts): string {
  const left = names.length - 2
  const said = left < 2 ? names : [...names.slice(0, 2), fillText(more, { n: left }, language)]
  return new Intl.ListFormat(language, { type: 'conjunction' }).format(said)
}

/** A volume as it is read aloud: at most one decimal. */
export function mL(volume: number): string {
  return shownNumber(Math.round(volume * 10) / 10)
}

/** A least volume as it is read aloud: at most one decimal, never below the true one. */
export function atLeast_mL(volume: number): string {
  return String(Math.ceil(volume * 10 - 1e-6) / 10)
}
