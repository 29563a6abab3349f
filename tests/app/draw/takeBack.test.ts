import { describe, expect, it } from 'vitest'
import type { DrawChannel } from '../../../src/app/draw/drawChannel.ts'
import { heardWords, takeBack, type EarlyAct } from '../../../src/app/draw/takeBack.ts'
import voiceTexts from '../../../src/data/en/voice.json'
import type { CommandKey } from '../../../src/core/protocol/commands.ts'
import type { Match } from '../../../src/core/voice/matchPhrase.ts'

/** What comes of the undo of an early act, with a log of so many entries by then. */
async function after(
  act: EarlyAct | undefined,
  undone: Match,
  more: { entries?: number; meant?: Match } = {},
): Promise<readonly string[]> {
  const done: string[] = []
  const entries = Array.from({ length: more.entries ?? 5 })
  const draw = {
    session: { log: () => ({ entries }) },
    dispatch: ({ type }: { type: string }) => Promise.resolve(void done.push(type)),
    refuse: (text: string) => void done.push(`refused: ${text}`),
  } as unknown as DrawChannel
  const meant = more.meant ? { meant: more.meant } : {}
  await takeBack(draw, { kind: 'undo', ...undone, instead: '[unk] on', ...meant }, act, voiceTexts)
  return done
}
const early = (key: CommandKey, left = true): EarlyAct => ({ key, entries: 5, left })
const bandOn: Match = { key: 'bandOn', phrase: 'band on' }
const meant: Match = { key: 'bandOff', phrase: 'band released' }

describe('an early act that was a mistake', () => {
  it('is taken back if nothing came after it', async () => {
    expect(await after(early('bandOn'), bandOn)).toEqual(['goBack'])
  })

  it('gives way to what was meant', async () => {
    expect(await after(early('bandOn'), bandOn, { meant })).toEqual(['goBack', 'bandOff'])
  })

  it('is only told if something came after it, and nothing more is done', async () => {
    const [text, ...more] = await after(early('bandOn'), bandOn, { entries: 6, meant })
    expect(text).toMatch(/^refused: Heard "… on" rather than "band on"/)
    expect(more).toEqual([])
  })

  it('never takes back what another act did', async () => {
    expect(await after(undefined, bandOn)).toEqual([expect.stringMatching(/^refused/)])
    expect(await after(early('needleIn'), bandOn)).toEqual([expect.stringMatching(/^refused/)])
  })

  it('leaves the record alone when it left nothing there', async () => {
    const sayAgain: Match = { key: 'sayAgain', phrase: 'say again' }
    expect(await after(early('sayAgain', false), sayAgain)).toEqual([])
    expect(await after(early('sayAgain', false), sayAgain, { meant })).toEqual(['bandOff'])
  })

  it('listens again when it had stopped listening, and the other way round', async () => {
    const paused: Match = { key: 'pauseListening', phrase: 'pause listening' }
    expect(await after(early('pauseListening', false), paused)).toEqual(['resumeListening'])
    const resumed: Match = { key: 'resumeListening', phrase: 'resume listening' }
    expect(await after(undefined, resumed)).toEqual(['pauseListening'])
  })

  it('speaks in words again when it had turned to tones, and the other way round', async () => {
    const tones: Match = { key: 'tonesOnly', phrase: 'tones only please' }
    expect(await after(early('tonesOnly', false), tones)).toEqual(['wordsAgain'])
    const words: Match = { key: 'wordsAgain', phrase: 'spoken words please' }
    expect(await after(early('wordsAgain', false), words)).toEqual(['tonesOnly'])
  })

  it('says no word where there were tones before it: it had changed nothing', async () => {
    const tones: Match = { key: 'tonesOnly', phrase: 'tones only please' }
    const act: EarlyAct = { ...early('tonesOnly', false), wasSo: true }
    expect(await after(act, tones)).toEqual([])
    expect(await after(act, tones, { meant })).toEqual(['bandOff'])
  })
})

describe('what was heard', () => {
  it('is shown to people with dots for unknown sounds', () => {
    expect(heardWords('[unk] band [unk]')).toBe('… band …')
  })
})
