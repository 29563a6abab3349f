import { fillText } from '../basics/fillText.ts'
import { faulty, ok, type Result } from '../basics/result.ts'
import { scanJson, type JsonFault, type JsonFaultKind } from './scanJson.ts'
import { quoted } from './shownText.ts'

/** Reads JSON, or names the first place where it is not what this app reads; see `scanJson`. Never throws. */
export function parseJson(text: string, deepest?: number): Result<unknown, JsonFault> {
  const fault = scanJson(text, deepest)
  return fault ? faulty([fault]) : ok(JSON.parse(text))
}

/**
 * The wording of `jsonFaultSentence`, from the language's files. `{place}` is line and column, `{path}` what it is in.
 */
export type JsonFaultTexts = Readonly<Record<JsonFaultKind, string>>

/** A sentence that says what is wrong and where: line and column count from 1, as editors do. */
export function jsonFaultSentence(fault: JsonFault, text: string, texts: JsonFaultTexts): string {
  const before = text.slice(0, fault.at)
  const line = (before.match(/\n/g)?.length ?? 0) + 1
  const column = fault.at - (before.lastIndexOf('\n') + 1) + 1
  return fillText(texts[fault.kind], { line, column, path: quoted(fault.path) })
}
