import { fillText } from '../../core/basics/fillText.ts'
import { commandOf } from '../../core/protocol/openCommands.ts'
import type { CommandKey } from '../../core/protocol/commands.ts'
import type { HearOutcome } from '../../core/voice/hearing.ts'
import { UNKNOWN } from '../../core/voice/matchPhrase.ts'
import type { VoiceTexts } from '../site/voiceTexts.ts'
import type { DrawChannel } from './drawChannel.ts'

type Undo = Extract<HearOutcome, { kind: 'undo' }>

/** What an early act left behind, by which its undo knows what there is to take back. */
export interface EarlyAct {
  readonly key: CommandKey
  /** Length of the log after it. */
  readonly entries: number
  /** It made an entry or asked a question; answers like the time leave nothing. */
  readonly left: boolean
  /** What it asked for was so before: there is nothing to turn back. */
  readonly wasSo?: boolean
}

const OPPOSITE = {
  pauseListening: 'resumeListening',
  resumeListening: 'pauseListening',
  tonesOnly: 'wordsAgain',
  wordsAgain: 'tonesOnly',
} as const

/** What was heard, for people: unknown sounds as dots. */
export const heardWords = (text: string): string => text.replaceAll(UNKNOWN, '…')

/**
 * The final result says that an early act was a mistake: takes it back if nothing came after it, and does what was
 * meant. Never touches an entry that the act did not make.
 */
export async function takeBack(
  draw: Pick<DrawChannel, 'session' | 'dispatch' | 'refuse'>,
  undo: Undo,
  act: EarlyAct | undefined,
  texts: Pick<VoiceTexts, 'takenBackTooLate'>,
): Promise<void> {
  const transcript = heardWords(undo.instead)
  const opposite = undo.key in OPPOSITE ? OPPOSITE[undo.key as keyof typeof OPPOSITE] : undefined
  const ours = act?.key === undo.key
  if (opposite) {
    if (!(ours && act.wasSo)) await draw.dispatch({ type: opposite }, 'voice', transcript)
  } else if (ours && act.left && act.entries === draw.session.log().entries.length) {
    await draw.dispatch({ type: 'goBack' }, 'voice', transcript)
  } else if (!ours || act.left) {
    draw.refuse(fillText(texts.takenBackTooLate, { transcript, phrase: undo.phrase }))
    return
  }
  if (undo.meant) await draw.dispatch(commandOf(undo.meant.key), 'voice', transcript)
}
