import { describe, expect, it } from 'vitest'
import { exposureText } from '../../../src/app/record/exposureText.ts'
import { writeBundle } from '../../../src/core/fhir/bundle.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import wordsJson from '../../../src/data/en/words.json' with { type: 'json' }
import { texts } from '../../../src/data/en/texts.ts'
import { drawDriver, toTubesDone, type DrawDriver } from '../../support/drawDriver.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { secondCollector, sha256, sampleLog } from '../../support/sampleLog.ts'

const site = { texts, words: wordsJson } as unknown as Parameters<typeof exposureText>[1]

/** Stuck while the shield is open; a colleague takes the patient. */
function stuck(): DrawDriver {
  const draw = drawDriver()
  toTubesDone(draw)
  draw.does('lastTube', 'pressureOn', 'needlestick', 'colleagueHere', 'shieldClicked', 'sharpsDone')
  draw.tries({ type: 'handOver', to: secondCollector })
  draw.tries({ type: 'noteExposure', text: 'Washed at once, told the charge nurse.' })
  return draw
}
const logFrom = (draw: DrawDriver) => ({ ...sampleLog(), entries: draw.log() })

describe('the exposure record', () => {
  const log = logFrom(stuck())
  const text = exposureText(log, site) ?? ''

  it('holds what 29 CFR 1910.1030(h)(5) and (f)(3) ask for, or a line to fill it in', () => {
    // (h)(5)(i): type and brand of the device, work area, how it happened; (f)(3): route, circumstances, source.
    for (const field of [
      'Who was stuck: Robin Example (RE)',
      'When: 25 Nov 2026 ',
      'Work area: Example Clinic',
      'At what step: Needle shield',
      'Route: through the skin',
      'Device: ',
      'Safety feature: confirmed as closed',
      'Patient handed to Sam Sample (SS)',
      'Washed at once, told the charge nurse.',
      'Source: the patient of draw',
      '(72 h)',
      'Brand and model of the device: ___',
      'How it happened: ___',
      'Source: consent and tests: ___',
      'Own blood: taken, kept: ___',
    ])
      expect(text).toContain(field)
  })

  it('names the draw and not the patient', () => {
    const { fullName, recordNumber, birthDate } = sampleLog().entries.flatMap(({ event }) =>
      event.type === 'drawOpened' ? [event.patient] : [],
    )[0] ?? { fullName: 'x', recordNumber: 'x', birthDate: 'x' }
    for (const name of [fullName, recordNumber, birthDate]) expect(text).not.toContain(name)
  })

  it('is nowhere in the patient record: not in the note, not in FHIR', () => {
    const note = writeNote(log, noteTemplate).text
    const bundle = JSON.stringify(writeBundle(log, texts, sha256))
    for (const record of [note, bundle]) {
      expect(record).not.toMatch(/needle ?stick|stuck|charge nurse|exposure/i)
      expect(record).toContain('Sam Sample')
    }
  })

  it('said in error leaves no trace in the note either, and no exposure record', () => {
    const draw = drawDriver()
    toTubesDone(draw)
    draw.does('lastTube', 'pressureOn', 'needlestick', 'goBack')
    expect(exposureText(logFrom(draw), site)).toBeUndefined()
    expect(writeNote(logFrom(draw), noteTemplate).text).not.toMatch(/needle ?stick/i)
  })

  it('is none where nobody was stuck', () => {
    expect(exposureText(sampleLog(), site)).toBeUndefined()
  })
})

describe('a colleague who takes over at once', () => {
  it('frees the stuck from the path; the draw is not closed before their name is written', () => {
    const draw = drawDriver()
    toTubesDone(draw)
    draw.does('lastTube', 'pressureOn', 'needlestick')
    expect(draw.open().step).toContain('colleagueHere')
    draw.does('colleagueHere')
    expect(draw.state().exceptions).toEqual([])
    draw.does('shieldClicked', 'sharpsDone')
    draw.advance(300_000)
    draw.does('bleedingStopped')
    draw.advance(10_000)
    draw.does('bandageOn')
    expect(draw.step()).toBe('colleague')
    expect(draw.tries('endDraw')).toEqual({ kind: 'impossible', why: 'colleagueUnnamed' })
    draw.tries({ type: 'handOver', to: secondCollector })
    expect(draw.step()).toBe('labels')
  })

  it('is not offered where nobody was stuck', () => {
    const draw = drawDriver()
    toTubesDone(draw)
    expect(draw.tries('colleagueHere')).toEqual({ kind: 'impossible', why: 'nothingOpen' })
  })
})
