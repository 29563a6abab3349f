import { expect, it } from 'vitest'
import { writeBundle } from '../../../src/core/fhir/bundle.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { drawDriver, toBandage, toNeedleIn } from '../../support/drawDriver.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { sampleLog, sha256 } from '../../support/sampleLog.ts'

it('a label that was read on a broken tube is not the label of the tube drawn in its place', () => {
  const draw = drawDriver()
  const readBack = () =>
    /^.*labels read back.*$/im.exec(
      writeNote({ ...sampleLog(), entries: draw.log() }, noteTemplate).text,
    )?.[0]
  toNeedleIn(draw)
  draw.does('flashSeen', 'tubeOn', 'bandOff', 'tubeFull', 'tubeMixed', 'tubeOn', 'tubeFull')
  draw.does('tubeMixed', 'labelMatches', 'labelMatches')
  expect(readBack()).toContain('2 of 2')
  draw.does('droppedTube', 'tubeOn', 'tubeFull', 'tubeMixed')
  expect(readBack()).toContain('1 of 2')
})

it('blood of a person who turned out to be another gets no label and is no specimen of the patient', () => {
  const draw = drawDriver()
  toNeedleIn(draw)
  draw.does('flashSeen', 'tubeOn', 'bandOff', 'tubeFull', 'tubeMixed', 'refuseIdentity')
  const log = { ...sampleLog(), entries: draw.log() }
  expect(labelsFor(log)).toEqual([])
  const resources = writeBundle(log, texts, sha256).entry.map(
    ({ resource }) => resource.resourceType,
  )
  expect(resources).not.toContain('Specimen')
  const { text } = writeNote(log, noteTemplate)
  expect(text).toMatch(/identity did not match/i)
  // The tube stands among the tubes with whose blood it is, and what nobody recorded is said to be so.
  expect(text).toMatch(/label NONE: the identity did not match, so this is BLOOD OF ANOTHER PERSON/)
  expect(text).toContain('What became of the tube is not recorded')
})

it('both pressings are told, and what was thought over when it bled again is not', () => {
  const draw = drawDriver()
  toBandage(draw)
  draw.advance(60_000)
  draw.does('bleedingContinues')
  const log = { ...sampleLog(), entries: draw.log() }
  const lines = writeNote(log, noteTemplate).sections.flatMap((section) => section.lines)
  const valueOf = (label: string): string => lines.find((line) => line.label === label)?.value ?? ''
  const time = '\\d\\d:\\d\\d:\\d\\d'
  expect(valueOf('Pressure from')).toMatch(
    new RegExp(
      `^${time}, bleeding thought to have stopped ${time}, bandage ${time}; bled again, pressed from ${time}$`,
    ),
  )
  expect(valueOf('Bleeding stopped')).toBe('not recorded')
  expect(valueOf('Bandage')).toBe('not recorded')
  const times = valueOf('Pressure from').match(/\d\d:\d\d:\d\d/g) ?? []
  expect(times).toEqual(times.toSorted())
})
