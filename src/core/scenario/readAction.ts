import { commandOf } from '../protocol/openCommands.ts'
import { readWrite } from './readWrite.ts'
import type { Doing, ExpectKind, ScenarioAction, Via } from './scenario.ts'
import { scenarioTime_ms } from './scenarioTime.ts'
import { plain, type Vocabulary } from './vocabulary.ts'

const EXPECTS: readonly ExpectKind[] = [
  'screen',
  'step',
  'ask',
  'refused',
  'flag',
  'no flag',
  'cue',
  'clock',
  'chart',
  'no chart',
  'outcome',
]

/** Reads one line of the script without its time; a sentence instead when it cannot be read. */
export function readAction(text: string, vocabulary: Vocabulary): ScenarioAction | string {
  const [, verb = '', words = ''] = /^(\S+)\s*(.*)$/.exec(text) ?? []
  switch (verb) {
    case 'say':
    case 'touch':
    case 'key':
    case 'scan':
    case 'write': {
      const doing = readDoing(verb, words, vocabulary)
      return typeof doing === 'string' ? doing : { kind: 'do', via: verb, text: words, doing }
    }
    case 'tell':
      return words ? { kind: 'tell', text: words } : 'Say what happens after "tell".'
    case 'wait':
      return words ? 'Nothing stands after "wait"; the next line has the time.' : { kind: 'wait' }
    case 'crash':
    case 'sleep':
    case 'hidden': {
      const away_ms = scenarioTime_ms(words)
      return away_ms === undefined ? `Write how long: "${verb} 0:20".` : { kind: verb, away_ms }
    }
    case 'clock': {
      const size_ms = scenarioTime_ms(words.slice(1))
      if (size_ms === undefined || !/^[+-]/.test(words))
        return 'Write by how much: "clock +1:00:00".'
      return { kind: 'clock', by_ms: words.startsWith('-') ? -size_ms : size_ms }
    }
    case 'expect':
      return readExpect(words)
    default:
      return `"${verb}" is nothing a line can begin with.`
  }
}

function readDoing(via: Via, words: string, vocabulary: Vocabulary): Doing | string {
  switch (via) {
    case 'say':
    case 'touch': {
      const list = via === 'say' ? vocabulary.phrases : vocabulary.buttons
      const key = list.get(plain(words))
      if (!key) return via === 'say' ? `"${words}" is no phrase.` : `"${words}" is no button.`
      return { kind: 'command', command: commandOf(key), key }
    }
    case 'key':
      if (words === 'Space') return { kind: 'main' }
      if (words === 'Backspace')
        return { kind: 'command', command: { type: 'goBack' }, key: 'goBack' }
      return /^[1-9]$/.test(words)
        ? { kind: 'choice', number: Number(words) }
        : `"${words}" is no key.`
    case 'scan': {
      const tube = /^tube (\d+)$/.exec(words)
      if (tube) return { kind: 'label', tube: Number(tube[1]) }
      return words
        ? { kind: 'command', command: { type: 'scanLabel', text: words } }
        : 'Write what is scanned: "scan tube 1".'
    }
    case 'write':
      return readWrite(words)
  }
}

function readExpect(words: string): ScenarioAction | string {
  const what = EXPECTS.find((kind) => words.startsWith(`${kind} `))
  if (!what) return `After "expect" comes one of ${EXPECTS.join(', ')}.`
  return { kind: 'expect', what, text: words.slice(what.length + 1).trim() }
}
