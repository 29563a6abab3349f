import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { measureArgs } from '../measure/measureArgs.ts'
import { bookOfList, InputFault, readLabels, withLabeled } from '../measure/measureInput.ts'
import { writeWav } from '../support/wav.ts'

let dir: string
beforeEach(() => void (dir = mkdtempSync(join(tmpdir(), 'measure-'))))
afterEach(() => rmSync(dir, { recursive: true }))

const wav = (name: string, rate_Hz = 16_000, count = 1600): void =>
  writeFileSync(join(dir, name), writeWav({ rate_Hz, samples: new Float32Array(count).fill(0.1) }))
const labels = (text: string): void => writeFileSync(join(dir, 'labels.csv'), text)

describe('readLabels', () => {
  it('reads files with their texts and steps, in any order of columns, as the model writes words', () => {
    wav('a.wav')
    wav('b.wav')
    labels('text,file,step\n"Needle in!",a.wav,needle\n,b.wav,\n')
    const [a, b] = readLabels(dir)
    expect(a).toMatchObject({ file: 'a.wav', text: 'needle in', step: 'needle' })
    expect(b).toMatchObject({ file: 'b.wav', text: '', step: '' })
    expect(a?.samples).toHaveLength(1600)
  })

  it('takes a list without titles as file and text', () => {
    wav('a.wav')
    labels('a.wav,needle in\n')
    expect(readLabels(dir)).toMatchObject([{ file: 'a.wav', text: 'needle in', step: '' }])
  })

  it.each<[string, () => void, RegExp]>([
    ['no labels', () => undefined, /There is no labels.csv/],
    ['no recordings', () => labels('file,text\n'), /names no recording/],
    ['no text column', () => labels('file,words\na.wav,x\n'), /no column "text"/],
    ['a missing file', () => labels('file,text\ngone.wav,x\n'), /gone.wav is not there/],
    [
      'another sample rate',
      () => (wav('a.wav', 44_100), labels('file,text\na.wav,x\n')),
      /44100 samples a second/,
    ],
    [
      'no WAV file',
      () => (writeFileSync(join(dir, 'a.wav'), 'words'), labels('file,text\na.wav,x\n')),
      /a.wav: /,
    ],
    [
      'an empty recording',
      () => (wav('a.wav', 16_000, 0), labels('file,text\na.wav,x\n')),
      /is empty/,
    ],
    [
      'an unknown step',
      () => (wav('a.wav'), labels('file,text,step\na.wav,x,nowhere\n')),
      /no step "nowhere"/,
    ],
  ])('says in a sentence what is wrong: %s', (_, prepare, message) => {
    prepare()
    expect(() => readLabels(dir)).toThrow(InputFault)
    expect(() => readLabels(dir)).toThrow(message)
  })
})

describe('the phrases to hear', () => {
  it('come from a list, each a command of its own, with the safety ones marked', () => {
    const book = bookOfList(
      'Needle in\n\nstop everything\nneedle in\n',
      new Set(['stop everything']),
    )
    expect(Object.keys(book.phrases)).toEqual(['needle in', 'stop everything'])
    expect(book.actAtOnce).toEqual(['stop everything'])
    expect(() => bookOfList('\n', new Set())).toThrow(InputFault)
  })

  it('are joined by those that only a label names', () => {
    wav('a.wav')
    labels('file,text\na.wav,blue moon\n')
    const book = withLabeled(bookOfList('needle in', new Set()), readLabels(dir))
    expect(book.phrases).toEqual({ 'needle in': ['needle in'], 'blue moon': ['blue moon'] })
  })
})

describe('measureArgs', () => {
  it('reads a folder and its options', () => {
    expect(
      measureArgs(['d', '--snr', '10', '--noise', 'n.wav', '--fast', '--stock']),
    ).toMatchObject({
      ...{ dir: 'd', snr_dB: 10, noise: 'n.wav', fast: true, stock: true, json: false },
    })
  })

  it.each([
    [[], /Name one folder/],
    [['a', 'b'], /Name one folder/],
    [['a', '--snr', '10'], /belong together/],
    [['a', '--snr', 'loud', '--noise', 'n.wav'], /must be a number/],
    [['a', '--phrases'], /needs a value/],
    [['a', '--loud'], /no option --loud/],
  ])('refuses %j', (args, message) => {
    expect(() => measureArgs(args)).toThrow(message)
  })
})
