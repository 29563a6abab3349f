import { describe, expect, it } from 'vitest'
import { exposureText } from '../../../src/app/record/exposureText.ts'
import { labelWords } from '../../../src/app/record/labelWords.ts'
import { stripText } from '../../../src/app/record/stripText.ts'
import { testInfo } from '../../../src/app/record/testInfo.ts'
import type { DrawView } from '../../../src/app/view/drawViewTypes.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { LABEL_STOCK, layLabel } from '../../../src/core/record/layLabel.ts'
import { recordNote } from '../../../src/core/record/recordNote.ts'
import { specimenRisks } from '../../../src/core/record/risk.ts'
import { planSittings } from '../../../src/core/plan/planSittings.ts'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'
import prompts from '../../../src/data/en/prompts.json'
import { playScenario, playSeries, readScript, scenarioFiles } from '../../support/scenarioSite.ts'
import { shippedSite as site } from '../../support/site.ts'
import { gallery } from '../gallery/galleryStates.ts'
import { rawCodes } from './rawCodes.ts'

/** `where: what` for every text with something raw in it, each kind of finding once. */
function findings(texts: Iterable<readonly [where: string, text: string]>): readonly string[] {
  const found = new Map<string, string>()
  for (const [where, text] of texts) {
    for (const raw of rawCodes(text)) if (!found.has(raw)) found.set(raw, `${where}: ${text}`)
  }
  return [...found].map(([raw, at]) => `${raw} in ${at}`.slice(0, 200))
}

/** Fields of a view that the screens act on and do not show. */
const NOT_SHOWN = new Set([
  ...[
    'id',
    'drawId',
    'kind',
    'command',
    'place',
    'tone',
    'state',
    'status',
    'key',
    'code',
    'role',
    'skin',
  ],
  ...['look', 'shape', 'outcome', 'heard', 'listening', 'labelsBy', 'tubeId', 'tubeCode', 'arm'],
  ...['direction', 'needleSet', 'mark', 'form', 'site', 'vein', 'why', 'additive'],
  ...['specimenNumber', 'side', 'phase', 'number'],
])

function* shownIn(value: unknown, where: string): Generator<readonly [string, string]> {
  if (typeof value === 'string') yield [where, value]
  else if (Array.isArray(value)) for (const each of value) yield* shownIn(each, where)
  else if (typeof value === 'object' && value !== null) {
    for (const [key, each] of Object.entries(value)) {
      if (!NOT_SHOWN.has(key)) yield* shownIn(each, `${where}.${key}`)
    }
  }
}

const { testName, needsFasting } = testInfo(site.catalogue)

/** Every record that the practice scripts come to. */
const logs: readonly (readonly [string, DrawLog])[] = scenarioFiles().flatMap(({ name, text }) => {
  const reading = readScript(text)
  if (!reading.ok) throw new Error(name)
  const runs = reading.value.later ? playSeries(reading.value) : [playScenario(reading.value)]
  return runs.map(({ log }) => [name, log] as const)
})

describe('nothing is written for a machine', () => {
  it('is said of texts that are, and not of those that are not', () => {
    expect(rawCodes('Not the right arm: nodeRemoval, on for long: t7.')).toEqual([
      'nodeRemoval',
      't7',
    ])
    expect(rawCodes('undefined at 2026-11-25, {name}, 2:30 PM')).toHaveLength(4)
    const first = site.catalogue.tubes.find(({ code }) => /\d/.test(code))!
    expect(rawCodes(`Bring ${first.code}`)).toContain(first.code)
    expect(rawCodes('Serum gel 3.5 mL, pH 7.4, 25 Nov 2026 09:02, “needle in”')).toEqual([])
  })

  it('on any state of the draw screen', { timeout: 120_000 }, () => {
    const states = gallery().states
    const shown = function* (): Generator<readonly [string, string]> {
      for (const { name, view } of states) yield* shownIn(view satisfies DrawView, name)
    }
    expect(states.length).toBeGreaterThan(100)
    expect(findings(shown())).toEqual([])
  })

  it(
    'in any note, risk, exposure record or ruler of the practice scripts',
    { timeout: 120_000 },
    () => {
      const texts = logs.flatMap(([name, log]) => [
        [name, recordNote(log, site.texts, testName, needsFasting).text] as const,
        ...specimenRisks(log, site.texts.record, needsFasting, testName).map(
          ({ title, found, why }) => [`${name} risk`, `${title} ${found} ${why}`] as const,
        ),
        [`${name} exposure`, exposureText(log, site) ?? ''] as const,
        [`${name} ruler`, stripText(log, site.texts).replace(/<[^>]*>/g, '\n')] as const,
      ])
      expect(texts.length).toBeGreaterThan(150)
      expect(
        findings(
          texts.flatMap(([at, text]) => text.split('\n').map((line) => [at, line] as const)),
        ),
      ).toEqual([])
    },
  )

  it('on any label of the practice scripts', { timeout: 120_000 }, () => {
    const texts = logs.flatMap(([name, log]) =>
      labelsFor(log, labelWords(site)).flatMap((label) =>
        (Object.keys(LABEL_STOCK) as (keyof typeof LABEL_STOCK)[]).flatMap((stock) => {
          const laid = layLabel(label, stock, site.texts.screens.labels)
          return [...laid.lines, ...laid.rows.flatMap(({ left, right }) => [left, right])].map(
            (text) => [`${name} label`, text] as const,
          )
        }),
      ),
    )
    expect(texts.length).toBeGreaterThan(300)
    expect(findings(texts)).toEqual([])
  })

  it(
    'in any plan: each test of the catalog alone, young and old, from vein and skin',
    { timeout: 240_000 },
    () => {
      const birthDates = ['1950-03-01', '2026-11-20', '2020-06-01']
      const texts = function* (): Generator<readonly [string, string]> {
        for (const { code } of site.catalogue.tests) {
          for (const [i, birthDate] of birthDates.entries()) {
            const patient = { ...site.demo.patient, birthDate, weight_kg: [70, 4, 20][i] ?? 70 }
            const order = { ...site.demo.order, tests: [code] }
            const place = i === 1 ? ({ collecting: 'capillaryHeel' } as const) : {}
            const input = { ...site, ...site.demo, patient, order, ...place, today: '2026-11-25' }
            for (const { plan } of planSittings(input)) {
              const notices = [...plan.problems, ...plan.warnings, ...(plan.details ?? [])]
              for (const { text } of notices) yield [`plan of ${code}`, text]
              for (const { reason } of plan.uncovered) yield [`plan of ${code}`, reason]
              for (const tube of plan.tubes)
                yield [`plan of ${code}`, `${tube.name}: ${tube.reason}`]
            }
          }
        }
      }
      expect(findings(texts())).toEqual([])
    },
  )

  it('in any prompt or practice script, and in no name of test or tube', () => {
    const spoken = Object.entries(prompts.prompts).map(
      ([key, text]) => [key, JSON.stringify(text)] as const,
    )
    const { tests, tubes } = site.catalogue
    const names = [...tests, ...tubes].map(({ code, name }) => [code, name] as const)
    const scripts = scenarioFiles().flatMap(({ name, text }) =>
      text
        .split('\n')
        .filter((line) => /^(title|about):/.test(line))
        .map((line) => [name, line] as const),
    )
    expect(findings([...spoken, ...names, ...scripts])).toEqual([])
  })
})
