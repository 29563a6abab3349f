// @vitest-environment jsdom

import { describe, expect, it } from 'vitest'
import { stripText } from '../../../src/app/record/stripText.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { sampleLog, sampleOpening } from '../../support/sampleLog.ts'

/** Parsed as XML, as a program that prints it would: what is not well-formed throws. */
function parsed(svg: string): Document {
  const document = new DOMParser().parseFromString(svg, 'image/svg+xml')
  expect(document.querySelector('parsererror')).toBeNull()
  return document
}

const linesOf = (document: Document): readonly (string | null)[] =>
  [...document.querySelectorAll('text')].map(({ textContent }) => textContent)

describe('the ruler as a file', () => {
  it('is an SVG of its own with the draw, its day and its words', () => {
    const document = parsed(stripText(sampleLog(), texts))
    expect(document.documentElement.namespaceURI).toBe('http://www.w3.org/2000/svg')
    expect(linesOf(document)).toEqual(
      expect.arrayContaining([
        'Ruler of draw D7-20261125-0003, 25 Nov 2026',
        'tourniquet 0:43',
        '1 light blue',
        'pressed 2:10',
        'bandage',
        'closed: complete',
      ]),
    )
    expect(document.querySelector('desc')?.textContent).toContain('tourniquet 0:43')
  })

  it('says that a draw is a practice one, is not closed, or has a damaged record', () => {
    const log = sampleLog({
      opening: { invented: true },
      without: ({ type }) => type === 'drawClosed',
    })
    expect(linesOf(parsed(stripText(log, texts, 'Entry 7 was changed.'))).slice(0, 4)).toEqual([
      'Ruler of draw D7-20261125-0003, 25 Nov 2026',
      texts.note.invented,
      texts.note.notClosed,
      'Entry 7 was changed.',
    ])
  })

  it('holds names from a foreign log as text, whatever is in them', () => {
    const plan = sampleOpening().plan
    const closure = '</text><script>alert(1)</script>&"\u0000\ufffe'
    const tubes = plan.tubes.map((tube) => ({ ...tube, closure }))
    const log = sampleLog({ opening: { plan: { ...plan, tubes } } })
    const document = parsed(stripText(log, texts))
    expect(document.querySelector('script')).toBeNull()
    expect(linesOf(document).join()).toContain('1 </text><script>alert')
  })

  it('loads nothing from anywhere', () => {
    expect(stripText(sampleLog(), texts)).not.toMatch(/href|url\((?!#)|@import|https?:(?!\/\/www\.w3\.org\/2000\/svg)/) // prettier-ignore
  })
})
