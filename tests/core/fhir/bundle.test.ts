import { describe, expect, it } from 'vitest'
import { HANDLING } from '../../../src/core/catalogue/handling.ts'
import { ADDITIVES } from '../../../src/core/catalogue/additives.ts'
import { base64, utf8Bytes } from '../../../src/core/fhir/base64.ts'
import { writeBundle } from '../../../src/core/fhir/bundle.ts'
import { readBundle } from '../../support/readBundle.ts'
import type { AnyResource, Bundle } from '../../../src/core/fhir/resources.ts'
import { summaryOf } from '../../support/summaryOf.ts'
import { uuidOf } from '../../../src/core/fhir/uuid.ts'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'
import { recordNote } from '../../../src/core/record/recordNote.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { fhirIssues } from '../../support/fhirChecks.ts'
import { structureIssues } from '../../support/fhirDefinitions.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import {
  logOf,
  sampleCollector,
  sampleLog,
  sampleOpening,
  secondCollector,
  sha256,
} from '../../support/sampleLog.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'

const bundleOf = (log: DrawLog): Bundle => writeBundle(log, texts, sha256)
const asJson = (value: unknown) => JSON.parse(JSON.stringify(value)) as Record<string, unknown>

/** References as `Patient/id`, which tells the structure check what kind of resource they lead to. */
function withTypedReferences(bundle: Bundle): Bundle {
  const types = bundle.entry.map(({ fullUrl, resource }) => [fullUrl, resource] as const)
  const text = types.reduce(
    (json, [url, { resourceType, id }]) =>
      json.replaceAll(`"reference":"${url}"`, `"reference":"${resourceType}/${id}"`),
    JSON.stringify(bundle),
  )
  return JSON.parse(text) as Bundle
}

const ofType = <T extends AnyResource['resourceType']>(bundle: Bundle, type: T) =>
  bundle.entry
    .map(({ resource }) => resource)
    .filter((r): r is Extract<AnyResource, { resourceType: T }> => r.resourceType === type)

const { preparation } = sampleOpening()
const { fasted_h: _fasted, ...unasked } = preparation
const allAdditives = samplePlan(
  ADDITIVES.map((additive, index) => sampleTube(`t${index + 1}`, additive)),
)

/** Draws of very different kinds; every check below holds for each. */
const DRAWS: readonly (readonly [string, DrawLog])[] = [
  ['a straight draw', sampleLog()],
  [
    'a draw with a label of the laboratory’s own',
    sampleLog({
      add: [[341, { type: 'accessionTaken', tubeId: 't2', accession: 'LAB-9', how: 'scan' }]],
    }),
  ],
  [
    'a patient whose family and given names are known',
    sampleLog({
      opening: {
        patient: { ...sampleOpening().patient, familyName: 'Invented', givenNames: 'Alex' },
      },
    }),
  ],
  [
    'an order with all that can be known of it, handling of every kind, and a tube that was not drawn',
    sampleLog({
      opening: {
        order: {
          ...sampleOpening().order,
          ...{ providerNumber: 'P-1', orderedAt: '2026-11-25T08:30', ward: 'Ward 3' },
          ...{ visitNumber: 'V-9', bandNumber: 'B-7' },
        },
        plan: samplePlan([
          sampleTube('t1', 'citrate'),
          sampleTube('t2', 'activatorGel', { handling: [...HANDLING] }),
          sampleTube('t3', 'edtaK2'),
        ]),
      },
      without: (event) => 'tubeId' in event && event.tubeId === 't3',
    }),
  ],
  ['a practice draw', sampleLog({ opening: { invented: true } })],
  [
    'a draw with a second puncture by a colleague, difficulties and an addendum',
    sampleLog({
      add: [
        [113, { type: 'exceptionRaised', kind: 'noFlash', note: 'no blood at all' }],
        [113.3, { type: 'needleOut' }],
        [113.4, { type: 'collectorChanged', to: secondCollector }],
        [113.5, { type: 'punctureBegun', number: 2 }],
        [113.6, { type: 'siteChosen', arm: 'right', vein: 'hand' }],
        [113.8, { type: 'needleIn', attempt: 1 }],
        [171, { type: 'exceptionRaised', kind: 'faint' }],
        [172, { type: 'entryUndone', seq: 3 }],
        [500, { type: 'addendumMade', by: sampleCollector, text: 'Left arm.', why: 'Slip.' }],
      ],
    }),
  ],
  [
    'a draw with short, empty and unfinished tubes, nobody asked about fasting',
    sampleLog({
      opening: { preparation: unasked },
      without: (event) => event.type === 'tubeOff' || event.type === 'drawClosed',
      add: [
        [123, { type: 'tubeOff', tubeId: 't1', fill: 'short' }],
        [140, { type: 'tubeOff', tubeId: 't2', fill: 'empty' }],
        [900, { type: 'spinStarted', tubeIds: ['t1'] }],
      ],
    }),
  ],
  [
    'a draw that ended before a needle was in, with as little known as can be',
    logOf([
      [
        0,
        sampleOpening({
          site: '',
          patient: { fullName: 'A', birthDate: '1980-02-29', recordNumber: '' },
          order: { orderNumber: '', tests: [], priority: 'stat' },
        }),
      ],
      [5, { type: 'consentRefused' }],
      [9, { type: 'drawClosed', outcome: 'notDrawn', reason: 'Consent refused.' }],
    ]),
  ],
  [
    'a draw stopped with the needle in',
    sampleLog({
      without: (event) => event.type === 'drawClosed' || 'tubeId' in event,
      add: [[380, { type: 'drawClosed', outcome: 'stopped', reason: 'Pain.' }]],
    }),
  ],
  [
    'a draw with every additive there is',
    logOf([
      [0, sampleOpening({ plan: allAdditives })],
      ...allAdditives.tubes.flatMap(({ id }, index) => [
        [10 + index * 10, { type: 'tubeOn', tubeId: id }] as const,
        [15 + index * 10, { type: 'tubeOff', tubeId: id, fill: 'full' }] as const,
      ]),
    ]),
  ],
]

describe.each(DRAWS)('the bundle of %s', (_name, log) => {
  const bundle = bundleOf(log)

  it('fits the structure definitions of R4, resource by resource', () => {
    const typed = withTypedReferences(bundle)
    for (const { resource } of typed.entry) expect(structureIssues(resource)).toEqual([])
    expect(structureIssues(typed)).toEqual([])
  })

  it('has required codes, codes that their systems have, no empty value and no loose reference', () => {
    expect(fhirIssues(asJson(bundle))).toEqual([])
  })

  it('gives the same draw back, for all that R4 holds', () => {
    expect(readBundle(asJson(bundle) as unknown as Bundle)).toEqual(summaryOf(log))
  })

  it('has every text filled in', () => {
    // The note says in its own braces where a site may put a field; none may be left.
    expect(JSON.stringify(bundle).match(/\{\w+\}|undefined|NaN/g)).toBeNull()
    expect(writeNote(log, noteTemplate).text).not.toMatch(/\{\w+\}|undefined|NaN/)
  })

  it('has no specimen without a subject, a collector and a time', () => {
    for (const specimen of ofType(bundle, 'Specimen')) {
      const { collector, collectedPeriod, collectedDateTime } = specimen.collection
      expect(specimen.subject.reference).toMatch(/^urn:uuid:/)
      expect(collector.reference).toMatch(/^urn:uuid:/)
      expect(collectedPeriod?.start ?? collectedDateTime).toMatch(/^\d{4}-.*[+-]\d\d:\d\d$/)
    }
  })

  it('carries the chart note word for word', () => {
    const [document] = ofType(bundle, 'DocumentReference')
    const attachment = document?.content[0]?.attachment
    const text = Buffer.from(attachment?.data ?? '', 'base64').toString('utf8')
    expect(text).toBe(recordNote(log, texts).text)
    expect(attachment?.size).toBe(Buffer.byteLength(text))
  })
})

describe('writeBundle', () => {
  it('always gives the same bundle for the same log', () => {
    expect(bundleOf(sampleLog())).toEqual(bundleOf(sampleLog()))
  })

  it('gives family and given names as R4 parts them, and of an old record the text alone', () => {
    const who = { ...sampleOpening().patient, fullName: 'Alex B. Invented' }
    const names = { familyName: 'Invented', givenNames: 'Alex B.' }
    const nameIn = (patient: typeof who) =>
      ofType(bundleOf(sampleLog({ opening: { patient } })), 'Patient')[0]?.name
    expect(nameIn({ ...who, ...names })).toEqual([
      { text: 'Alex B. Invented', family: 'Invented', given: ['Alex', 'B.'] },
    ])
    expect(nameIn(who)).toEqual([{ text: 'Alex B. Invented' }])
  })

  it('says when, where and by whom it was ordered, as far as the order does', () => {
    const order = {
      ...sampleOpening().order,
      ...{
        providerNumber: 'P-1',
        orderedAt: '2026-11-25T08:30',
        ward: 'Ward 3',
        visitNumber: 'V-9',
      },
    }
    const bundle = bundleOf(sampleLog({ opening: { order } }))
    expect(ofType(bundle, 'ServiceRequest')[0]).toMatchObject({
      authoredOn: '2026-11-25T08:30:00+01:00',
      requester: { identifier: { value: 'P-1' }, display: 'Dr. Pat Placeholder' },
      encounter: { identifier: { value: 'V-9' } },
      locationReference: [{ display: 'Ward 3' }],
    })
    const day = { ...sampleOpening().order, orderedAt: '2026-11-24' }
    const [request] = ofType(bundleOf(sampleLog({ opening: { order: day } })), 'ServiceRequest')
    expect(request?.authoredOn).toBe('2026-11-24')
  })

  // Table 0376 of HL7 version 2.9, as in the published definitions; the extension is R4's own.
  it.each([
    ['light', 'PRTL'],
    ['ice', 'REF'],
    ['warm', 'C37'],
    ['upright', 'UPR'],
    ['roomOnly', 'CAMB'],
    ['traceFree', 'MTLF'],
  ] as const)('codes the handling %s as %s', (mark, code) => {
    const plan = samplePlan([sampleTube('t1', 'citrate', { handling: [mark] })])
    const [specimen] = ofType(bundleOf(sampleLog({ opening: { plan } })), 'Specimen')
    expect(specimen?.extension?.[0]?.url).toBe(
      'http://hl7.org/fhir/StructureDefinition/specimen-specialHandling',
    )
    expect(specimen?.extension?.[0]?.valueCodeableConcept.coding?.[0]?.code).toBe(code)
  })

  it('gives a task with the reason for each test that was not collected', () => {
    const log = sampleLog({
      without: (event) =>
        ('tubeId' in event && event.tubeId === 't3') || event.type === 'drawClosed',
      add: [
        [350, { type: 'noFurtherPuncture' }],
        [380, { type: 'drawClosed', outcome: 'partial' }],
      ],
    })
    const bundle = bundleOf(log)
    const [task, ...more] = ofType(bundle, 'Task')
    expect(more).toEqual([])
    expect(task).toMatchObject({
      status: 'cancelled',
      statusReason: { text: 'no further puncture' },
    })
    const [, , third] = ofType(bundle, 'ServiceRequest')
    expect(task?.focus.reference).toBe(`urn:uuid:${third?.id}`)
    expect(third?.status).toBe('active')
    expect(ofType(bundleOf(sampleLog()), 'Task')).toEqual([])
  })

  it('has the tourniquet and the needle as structure, not only as text', () => {
    const bundle = bundleOf(sampleLog())
    expect(ofType(bundle, 'Observation').map(({ valueQuantity }) => valueQuantity?.value)).toEqual([
      43,
    ])
    const [procedure] = ofType(bundle, 'Procedure')
    expect(procedure?.usedCode?.[0]?.coding?.[0]?.code).toBe('winged-21G')
  })

  it('keeps venipuncture as the method of a culture bottle, and makes no specimen of a discard', () => {
    const plan = samplePlan([
      sampleTube('t1', 'plain', { role: 'discard' }),
      sampleTube('t2', 'cultureAerobic', { role: 'culture' }),
    ])
    const specimens = ofType(bundleOf(sampleLog({ opening: { plan } })), 'Specimen')
    const known = specimens.map(({ container }) => container[0]?.type.text)
    expect(known).not.toContain(plan.tubes[0]?.name)
    expect(specimens[0]?.collection.method.coding?.[0]?.code).toBe('VENIP')
  })

  it('marks an invented draw as test data in the bundle and each resource', () => {
    const bundle = bundleOf(sampleLog({ opening: { invented: true } }))
    for (const item of [bundle, ...bundle.entry.map(({ resource }) => resource)]) {
      expect(item.meta?.tag[0]?.code).toBe('HTEST')
    }
  })

  it('keeps a specimen with a risk available and says the risk with its source', () => {
    const log = sampleLog({
      without: (event) => event.type === 'tubeOff' && event.tubeId === 't1',
      add: [[123, { type: 'tubeOff', tubeId: 't1', fill: 'short', estimate_mL: 1 }]],
    })
    const [citrate] = ofType(bundleOf(log), 'Specimen')
    expect(citrate?.status).toBe('available')
    expect(citrate?.condition).toEqual([{ text: 'Filled short' }])
    expect(citrate?.collection.quantity).toMatchObject({ value: 1, code: 'mL' })
    expect(citrate?.note?.[0]?.text).toMatch(/^Citrate tube filled short.*Source: CLSI H21/)
  })

  // R4, Specimen.accessionIdentifier: "identifier assigned by the lab when accessioning specimen(s)".
  it('gives the laboratory’s own number as the accession, beside ours', () => {
    const log = sampleLog({
      add: [[341, { type: 'accessionTaken', tubeId: 't2', accession: 'LAB-9', how: 'scan' }]],
    })
    const [, serum] = ofType(bundleOf(log), 'Specimen')
    expect(serum?.accessionIdentifier?.value).toBe('LAB-9')
    expect(serum?.identifier[0]?.value).toBe('D7261125000302')
  })

  it('writes no quantity for a tube whose volume nobody gave', () => {
    const log = sampleLog({
      without: (event) => event.type === 'tubeOff' && event.tubeId === 't1',
      add: [[123, { type: 'tubeOff', tubeId: 't1', fill: 'short' }]],
    })
    const [citrate] = ofType(bundleOf(log), 'Specimen')
    expect(citrate?.collection).not.toHaveProperty('quantity')
    expect(citrate?.container[0]).not.toHaveProperty('specimenQuantity')
  })

  // Table 0371 of HL7 version 2.9, as in the published definitions.
  it.each([
    ['citrate', 'C32'],
    ['plain', 'NONE'],
    ['activatorGel', 'SST'],
    ['heparinLithium', 'HEPL'],
    ['heparinSodium', 'HEPN'],
    ['edtaK2', 'EDTK'],
    ['fluorideOxalate', 'NAF'],
    ['thrombin', 'THROM'],
  ])('codes %s as %s', (additive, code) => {
    const [, log] = DRAWS.at(-1)!
    const coding = ofType(bundleOf(log), 'Specimen')
      .map(({ container }) => container[0]?.additiveCodeableConcept.coding)
      .find((list) => list?.some((c) => c.code === additive))
    expect(coding?.[0]?.code).toBe(code)
  })
})

describe('the checks themselves', () => {
  it('find a reference to the wrong kind of resource', () => {
    const bundle = withTypedReferences(bundleOf(sampleLog()))
    const [specimen] = ofType(bundle, 'Specimen')
    const wrong = { ...specimen, subject: { reference: 'Procedure/x' } }
    expect(structureIssues(wrong)).not.toEqual([])
  })

  const good = asJson(bundleOf(sampleLog()))
  const broken = (change: (specimen: Record<string, unknown>) => void): string[] => {
    const copy = structuredClone(good)
    const entry = copy['entry'] as { resource: Record<string, unknown> }[]
    change(entry.find(({ resource }) => resource['resourceType'] === 'Specimen')!.resource)
    return [...structureIssues(copy), ...fhirIssues(copy)]
  }

  it.each<[string, (specimen: Record<string, unknown>) => void]>([
    ['a status of no value set', (s) => void (s['status'] = 'banana')],
    [
      'an empty quantity',
      (s) => void ((s['collection'] as Record<string, unknown>)['quantity'] = {}),
    ],
    ['an unknown field', (s) => void (s['color'] = 'red')],
    ['two subjects', (s) => void (s['subject'] = [s['subject'], s['subject']])],
    ['a reference to nothing', (s) => void (s['subject'] = { reference: 'urn:uuid:none' })],
    [
      'a wrong additive code',
      (s) =>
        void ((s['container'] as Record<string, unknown>[])[0]!['additiveCodeableConcept'] = {
          coding: [{ system: 'http://terminology.hl7.org/CodeSystem/v2-0371', code: 'ZZZ' }],
        }),
    ],
    [
      'a date that is none',
      (s) =>
        void ((s['collection'] as Record<string, unknown>)['collectedPeriod'] = {
          start: '25/11/2026',
        }),
    ],
  ])('find %s', (_what, change) => {
    expect(broken(change)).not.toEqual([])
  })
})

describe('small parts', () => {
  it.each(['', 'f', 'fo', 'foo', 'foob', 'fooba', 'foobar'])(
    'base64 of "%s" is that of RFC 4648 section 10',
    (text) => {
      const vectors: Record<string, string> = {
        '': '',
        f: 'Zg==',
        fo: 'Zm8=',
        foo: 'Zm9v',
        foob: 'Zm9vYg==',
        fooba: 'Zm9vYmE=',
        foobar: 'Zm9vYmFy',
      }
      expect(base64(utf8Bytes(text))).toBe(vectors[text])
    },
  )

  it('writes UTF-8 as the platform does', () => {
    const text = 'aµ–😀\ud83d'
    expect(utf8Bytes(text)).toEqual([...new TextEncoder().encode(text)])
  })

  it('makes UUIDs of version 8 and the variant of RFC 9562, the same for the same text', () => {
    const uuid = uuidOf('x', sha256)
    expect(uuid).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/)
    expect(uuidOf('x', sha256)).toBe(uuid)
    expect(uuidOf('y', sha256)).not.toBe(uuid)
  })
})
