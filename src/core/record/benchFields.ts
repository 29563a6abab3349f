import type { Stamp } from '../time/stamp.ts'
import type { SpecimenWay } from '../protocol/specimenWay.ts'
import type { DrawFacts } from './drawFacts.ts'
import { labeledTubes, labelNumberOf } from './labeledTubes.ts'
import { amount, joined, type Fields, type NoteWords } from './noteWords.ts'

/** One thing that was done to a specimen, as its words and its time. */
interface Done {
  readonly what: string
  readonly at: Stamp
}

/** The specimens' way after the draw: what was done, when, to which tubes. */
export function benchFields(facts: DrawFacts, words: NoteWords): Fields {
  const { at, say, word } = words
  const named = (ids: readonly string[]): string =>
    ids
      .map((id) => {
        const fact = facts.tubes.find(({ tube }) => tube.id === id)
        return `${fact?.tube.name ?? id} ${labelNumberOf(facts, id)}`
      })
      .join(', ')
  const told = (done: (way: SpecimenWay) => Done | undefined): string | undefined => {
    const groups = new Map<string, string[]>()
    for (const [id, way] of facts.ways) {
      const found = done(way)
      if (!found) continue
      const text = [at(found.at), found.what].filter(Boolean).join(', ')
      groups.set(text, [...(groups.get(text) ?? []), id])
    }
    return joined(
      [...groups].map(([what, ids]) => say('spin', 'held', { at: what, tubes: named(ids) })),
    )
  }
  const sent = told(({ sent }) => sent && { what: peopleOf({ ...sent }), at: sent.at })
  return {
    spins: joined(
      facts.spins.map(({ tubeIds, started, ended, g, spin_min, temperature }) => {
        const how = [
          ...(ended ? [say('spin', 'until', { at: at(ended) })] : []),
          ...(g === undefined ? [] : [say('spin', 'force', { g: amount(g) })]),
          ...(spin_min === undefined ? [] : [say('spin', 'minutes', { min: amount(spin_min) })]),
          ...(temperature ? [word('spin', temperature)] : []),
        ]
        const when = [at(started), ...how].join(', ')
        return say('spin', 'held', { at: when, tubes: named(tubeIds) })
      }),
    ),
    separated: told(({ separated }) => separated && { what: '', at: separated }),
    aliquots: told(
      ({ aliquots }) =>
        aliquots && {
          what: say('spin', 'portions', { n: String(aliquots.portions) }),
          at: aliquots.at,
        },
    ),
    stored: told(({ stored }) => stored && { what: word('place', stored.where), at: stored.at }),
    bagged: told(({ bagged }) => bagged && { what: bagged.bag, at: bagged.at }),
    courier: sent ?? (labeledTubes(facts).length === 0 ? word('courier', 'none') : undefined),
    dropped: told(
      ({ dropped }) =>
        dropped && { what: peopleOf({ to: dropped.to, by: dropped.by }), at: dropped.at },
    ),
    received: told(({ received }) => received && { what: received.by ?? '', at: received.at }),
    rejected: told(
      ({ rejected }) =>
        rejected && {
          what: peopleOf({ reason: word('rejected', rejected.reason), note: rejected.note }),
          at: rejected.at,
        },
    ),
  }
}

const peopleOf = (parts: Readonly<Record<string, unknown>>): string =>
  Object.values(parts)
    .filter((part) => typeof part === 'string' && part !== '')
    .join(', ')
