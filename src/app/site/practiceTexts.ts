import type { Scenario, ScenarioLine } from '../../core/scenario/scenario.ts'
import type { NamedScenario } from './namedScenario.ts'
import type { Words } from './words.ts'

/**
 * Practice scripts in another language than that in which they are written: titles by the name of the script, sentences
 * by what the script has. What is missing is shown as it is written.
 */
export interface PracticeTexts {
  readonly language: string
  readonly scripts: Readonly<Record<string, ScriptWords | undefined>>
  readonly lines: Readonly<Record<string, string | undefined>>
}

export interface ScriptWords {
  readonly title: string
  readonly about: string
}

/** What a language shows of practice: the names of the buttons, and the scripts where they are translated. */
export interface PracticeWords {
  readonly words: Pick<Words, 'commands'>
  readonly practice?: PracticeTexts
}

/**
 * Whether the text of a line is translated: what is told and written, and the place of a label. What is said is English
 * in every language, the name of a button stands with the commands, and a code is a code.
 */
export const isTranslated = (line: ScenarioLine): boolean =>
  line.kind === 'tell' ||
  (line.kind === 'do' && (line.via === 'write' || line.doing.kind === 'label'))

/** The script as a trainee reads it in a language. What is done in it stays what it was. */
export function scenarioIn(
  { id, scenario }: NamedScenario,
  { words: { commands }, practice }: PracticeWords,
): NamedScenario {
  const lineIn = (line: ScenarioLine): ScenarioLine => {
    if (isTranslated(line) && 'text' in line) {
      return { ...line, text: practice?.lines[line.text] ?? line.text }
    }
    if (line.kind !== 'do' || line.via !== 'touch' || line.doing.kind !== 'command') return line
    const { key } = line.doing
    return key ? { ...line, text: commands[key] } : line
  }
  const { lines, later } = scenario
  const shown: Scenario = {
    ...scenario,
    ...practice?.scripts[id],
    lines: lines.map(lineIn),
    ...(later && { later: later.map((part) => ({ ...part, lines: part.lines.map(lineIn) })) }),
  }
  return { id, scenario: shown }
}
