import { CODE_SYSTEMS, systemAt, type CodeSystemName } from '../../src/core/fhir/siteSystems.ts'
import { fillText } from '../../src/core/basics/fillText.ts'
import { ADDITIVES } from '../../src/core/catalogue/additives.ts'
import type { Catalogue } from '../../src/core/catalogue/catalogue.ts'
import { SKIN_PLACES } from '../../src/core/order/collecting.ts'
import { ARMS, GAUGES, NEEDLE_KINDS, WALLS } from '../../src/core/order/order.ts'
import { HOLD_WHYS } from '../../src/core/order/sitting.ts'
import { CONSENT_FORMS, VEINS } from '../../src/core/protocol/events.ts'
import { EXCEPTION_KINDS } from '../../src/core/protocol/exceptions.ts'
import { MISSING_WHY } from '../../src/core/record/missingTests.ts'
import { texts } from '../../src/data/en/texts.ts'

interface Concept {
  readonly code: string
  readonly display: string
}

interface OwnCodes {
  readonly title: string
  /** Complete, or a site may have codes beyond these. */
  readonly content: 'complete' | 'fragment'
  readonly concept: readonly Concept[]
}

const { words, exceptions } = texts.note
const concept = (code: string, display: string): Concept => ({
  code,
  // What a text says of one draw alone is left open.
  display: display.replace(/\{\w+\}/g, '…'),
})

/** Our own codes with their words, from the lists that the app works with. */
function ownCodes({
  tests,
  tubes,
}: Pick<Catalogue, 'tests' | 'tubes'>): Readonly<Record<CodeSystemName, OwnCodes>> {
  const told: readonly string[] = [...EXCEPTION_KINDS]
  const waits = HOLD_WHYS.filter((why) => !told.includes(why))
  return {
    test: {
      title: 'Tests of the catalog as it ships',
      content: 'fragment',
      concept: tests.map(({ code, name }) => concept(code, name)),
    },
    tube: {
      title: 'Tubes of the catalog as it ships',
      content: 'fragment',
      concept: tubes.map(({ code, name }) => concept(code, name)),
    },
    additive: {
      title: 'Additives of tubes',
      content: 'complete',
      concept: ADDITIVES.map((code) => concept(code, texts.record.additives[code])),
    },
    site: {
      title: 'Where blood was drawn',
      content: 'complete',
      concept: ARMS.flatMap((arm) => [
        concept(arm, `${words.arm[arm]} arm`),
        ...VEINS.map((vein) => concept(`${arm}-${vein}`, `${words.arm[arm]} ${words.vein[vein]}`)),
        ...SKIN_PLACES.map((place) =>
          concept(`${arm}-${place}`, `${words.arm[arm]} ${words.collecting[place]}`),
        ),
      ]),
    },
    needle: {
      title: 'Needle sets by kind, gauge and wall; a syringe is added to the code by its size',
      content: 'fragment',
      concept: NEEDLE_KINDS.flatMap((kind) =>
        GAUGES.flatMap((gauge) => {
          const code = `${kind}-${gauge}G`
          const name = `${words.needleKind[kind]} ${gauge} G`
          const walled = WALLS.map((wall) =>
            concept(`${code}-${wall}`, `${name}, ${words.wall[wall]}`),
          )
          return [concept(code, name), ...walled]
        }),
      ),
    },
    observation: {
      title: 'What is measured of a draw',
      content: 'complete',
      concept: [
        concept('tourniquet', fillText(texts.record.fhir.tourniquet)),
        concept('tourniquetSearch', fillText(texts.record.fhir.tourniquetSearch)),
      ],
    },
    consent: {
      title: 'How consent was given',
      content: 'complete',
      concept: CONSENT_FORMS.map((form) => concept(form, words.consentForm[form])),
    },
    missing: {
      title: 'Why a test was not collected',
      content: 'complete',
      concept: MISSING_WHY.map((why) => concept(why, words.missing[why])),
    },
    exception: {
      title: 'What went otherwise than planned, and what holds a series',
      content: 'complete',
      concept: [
        ...EXCEPTION_KINDS.map((kind) => concept(kind, exceptions[kind])),
        ...waits.map((why) => concept(why, words.hold[why])),
      ],
    },
  }
}

/** Files of the CodeSystem and ValueSet resources (FHIR R4), by name, under a base or under our own names. */
export function codeSystemFiles(
  catalogue: Pick<Catalogue, 'tests' | 'tubes'>,
  base: string | undefined,
): readonly { readonly name: string; readonly resource: object }[] {
  const codes = ownCodes(catalogue)
  return CODE_SYSTEMS.flatMap((name) => {
    const { title, content, concept: concepts } = codes[name]
    const url = systemAt(name, base)
    const valueSet = base === undefined ? `${url}:all` : url.replace('/CodeSystem/', '/ValueSet/')
    const head = { id: `stillhand-${name}`, status: 'active', experimental: false }
    const about = { name: `Stillhand${name.replace(/^./, (first) => first.toUpperCase())}`, title }
    return [
      {
        name: `CodeSystem-${name}.json`,
        resource: {
          resourceType: 'CodeSystem',
          ...head,
          url,
          ...about,
          caseSensitive: true,
          valueSet,
          content,
          count: concepts.length,
          concept: concepts,
        },
      },
      {
        name: `ValueSet-${name}.json`,
        resource: {
          resourceType: 'ValueSet',
          ...head,
          url: valueSet,
          ...about,
          compose: { include: [{ system: url }] },
        },
      },
    ]
  })
}
