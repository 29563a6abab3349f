import { describe, expect, it } from 'vitest'
import { exposureText } from '../../../src/app/record/exposureText.ts'
import { stripText } from '../../../src/app/record/stripText.ts'
import { drawDigest } from '../../../src/app/view/drawDigest.ts'
import { writeBundle } from '../../../src/core/fhir/bundle.ts'
import { factsOf } from '../../../src/core/record/factsOf.ts'
import { layStrip } from '../../../src/core/record/layStrip.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { rulerStrip } from '../../../src/core/record/rulerStrip.ts'
import { clockTime } from '../../../src/core/time/format.ts'
import wordsJson from '../../../src/data/en/words.json' with { type: 'json' }
import { texts } from '../../../src/data/en/texts.ts'
import { drawDriver, toTubesDone, type DrawDriver } from '../../support/drawDriver.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import {
  logOf,
  sampleLog,
  sampleOpening,
  secondCollector,
  sha256,
} from '../../support/sampleLog.ts'
import { playScenario, readScript, scenarioFiles } from '../../support/scenarioSite.ts'

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
      'Safety feature: not yet closed at the time of the injury; closed ',
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

  it('tells how the shield was at the moment of the injury, not only that it was closed in the end', () => {
    // 29 CFR 1910.1030(h)(5)(i) asks how the incident occurred; logs ask whether the safety feature was activated.
    const { log: played } = playedNeedlestick()
    expect(exposureText(played, site)).toContain(
      'not yet closed at the time of the injury; closed 11 s later, 25 Nov 2026 09:02:40',
    )
    const after = drawDriver()
    toTubesDone(after)
    after.does('lastTube', 'pressureOn', 'shieldClicked', 'needlestick')
    expect(exposureText(logFrom(after), site)).toContain('Safety feature: closed before the injury')
    const open = drawDriver()
    toTubesDone(open)
    open.does('lastTube', 'pressureOn', 'needlestick')
    expect(exposureText(logFrom(open), site)).toContain('Safety feature: not recorded as closed')
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

  it('is nowhere on the ruler of the draw either: not in its picture, its words, nor as a file', () => {
    const { log: played } = playedNeedlestick()
    const drawing = layStrip(
      rulerStrip(played),
      { strip: texts.pictures.strip, note: texts.note },
      { width: 1000, hasWords: true },
    )
    const svg = stripText(played, texts)
    for (const shown of [JSON.stringify(drawing), svg, JSON.stringify(drawDigest(played))]) {
      expect(shown).not.toMatch(/needle ?stick|stuck|pricked|colleagueTook|colleague takes/i)
      expect(shown.length).toBeGreaterThan(500)
    }
    // The patient's own trouble stays where it is.
    expect(stripText(sampleLog({ add: [[172, { type: 'exceptionRaised', kind: 'faint' }]] }), texts)).toContain('Patient faint') // prettier-ignore
  })

  it('leaves no mark on the ruler and no entry in FHIR where it was taken back', () => {
    const draw = drawDriver()
    toTubesDone(draw)
    draw.does('lastTube', 'pressureOn')
    const before = rulerStrip(logFrom(draw)).marks.length
    draw.does('needlestick', 'goBack')
    expect(rulerStrip(logFrom(draw)).marks).toHaveLength(before)
    const { entry } = writeBundle(logFrom(draw), texts, sha256)
    const audits = entry.filter(({ resource }) => resource.resourceType === 'AuditEvent')
    expect(audits).toHaveLength(1)
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

/** The shipped script; its colleague takes over at 9:02:34 and is named at 9:05:00. */
function playedNeedlestick(): ReturnType<typeof playScenario> {
  const file = scenarioFiles().find(({ name }) => name === 'needlestick')
  const reading = readScript(file?.text ?? '')
  if (!reading.ok) throw new Error('The script does not read.')
  return playScenario(reading.value)
}

describe('a colleague who takes over at once', () => {
  it('has the patient from then on, not from when their name was written', () => {
    const { log: played } = playedNeedlestick()
    expect(exposureText(played, site)).toContain(
      'Patient handed to Sam Sample (SS): 25 Nov 2026 09:02:34',
    )
    const { collectors } = factsOf(played)
    expect(collectors.map(({ collector, from }) => [collector.initials, clockTime(from)])).toEqual([
      ['SA', '09:00:00'],
      ['SS', '09:02:34'],
    ])
    expect(writeNote(played, noteTemplate).text).toContain('Sam Sample (SS) from 09:02:34')
    expect(writeNote(played, noteTemplate).text).not.toContain('09:05:00')
    const changed = rulerStrip(played).marks.filter(
      ({ event }) => event.type === 'collectorChanged',
    )
    expect(changed.map(({ at_ms }) => at_ms)).toEqual([154_000])
  })

  it('is who put the next needle in, also before their name was written', () => {
    const entries = logOf([
      [0, sampleOpening()],
      [10, { type: 'needleIn', attempt: 1 }],
      [20, { type: 'pressureOn' }],
      [21, { type: 'needleOut' }],
      [30, { type: 'colleagueTook' }],
      [40, { type: 'punctureBegun', number: 2 }],
      [50, { type: 'needleIn', attempt: 2 }],
      [51, { type: 'tubeOn', tubeId: 't2' }],
      [60, { type: 'tubeOff', tubeId: 't2', fill: 'full' }],
      [70, { type: 'collectorChanged', to: secondCollector }],
    ])
    const { punctures, tubes } = factsOf(entries)
    expect(punctures.map(({ collector }) => collector.initials)).toEqual(['RE', 'SS'])
    expect(tubes.map(({ collector }) => collector.initials)).toEqual(['SS'])
  })

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
