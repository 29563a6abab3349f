import { characterFault } from './characterFault.ts'
import { codeOf } from './textFaultSentence.ts'

/**
 * A text as it may be shown: what cannot be seen, or would change how the text around it is read, stands as its
 * code in brackets, `[U+202E]`. Tabs stay, and line breaks of any kind as line feeds, so that a caller sets them as
 * its page needs.
 */
export function shownText(raw: string): string {
  if (/^[\x20-\x7E\n\t]*$/.test(raw)) return raw
  const text = raw.replace(LINE_BREAK, '\n')
  let shown = ''
  let index = 0
  for (const character of text) {
    const kept = character === '\n' || character === '\t'
    const hidden = !kept && characterFault(text, index, character) !== undefined
    shown += hidden ? `[U+${codeOf(character.codePointAt(0) ?? 0)}]` : character
    index += character.length
  }
  return shown
}

const LINE_BREAK = /\r\n?|[\u0085\u2028\u2029\v\f]/g

/**
 * A text of several lines under a label: each further line is set behind a bar, so that none of them can be taken
 * for a line of the page itself.
 */
export function indentedText(text: string, indent: string): string {
  return shownText(text).replaceAll('\n', `\n${indent}| `)
}

/** A value from outside within a sentence: on one line, in quotation marks, not longer than a line. */
export function quoted(text: string, most = 60): string {
  const letters = [...text.slice(0, most * 4)]
  const cut = letters.length > most || text.length > most * 4
  const start = letters.slice(0, most).join('')
  const shown = shownText(start).replace(/[\n\t]/g, (mark) =>
    mark === '\n' ? '[U+000A]' : '[U+0009]',
  )
  return `"${shown}${cut ? ' ...' : ''}"`
}
