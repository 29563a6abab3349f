import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { counting, NOTHING_COUNTED, scanned, toggled } from '../../../src/core/courier/count.ts'
import { isOfOrder } from '../../../src/core/courier/laboratoryOfTube.ts'
import { packList } from '../../../src/core/courier/packList.ts'
import { isHeldBack, packSpecimens, specimenKey } from '../../../src/core/courier/packSpecimen.ts'
import { carriedAt, deadlines, passedAt } from '../../../src/core/courier/transport.ts'
import { inPlainWork } from '../../support/inPlainWork.ts'
import { sampleLog, wrongPersonAddendum } from '../../support/sampleLog.ts'
import { LABORATORIES, sampleSpecimens } from '../../support/samplePack.ts'
import { shippedSite } from '../../support/site.ts'

const { catalogue } = shippedSite
const ALL = sampleSpecimens()
const [CBC, LACTATE, BILIRUBIN] = ALL as readonly [
  (typeof ALL)[0],
  (typeof ALL)[0],
  (typeof ALL)[0],
]
const COURIER = {
  type: 'courierTook',
  tubeIds: ['t1'],
  courier: 'Kim Carrier',
  pack: 'P1',
} as const

describe('what is packed together', () => {
  it('is of one laboratory, one temperature and one light', () => {
    // Lactate travels on ice (catalog row with its sources), bilirubin out of the light, serum cold as the site says.
    const groups = packList(ALL, LABORATORIES, catalogue)
    expect(groups.map(({ laboratory, carriedAt: at, dark, specimens }) => [laboratory?.id, at, dark, specimens.map(({ tubeId }) => tubeId)])).toEqual([
      ['main', 'cold', true, ['t3']],
      ['main', 'room', false, ['t1']],
      ['special', 'cold', false, ['t2']],
    ]) // prettier-ignore
  })

  it('goes to the laboratory that the order names, also one that the site does not know', () => {
    const to = (laboratory: string) => {
      const part = { orderNumber: 'O-1', tests: ['cbc'], priority: 'routine', laboratory } as const
      const named = { ...CBC, order: { ...CBC.order, parts: [part] } }
      return packList([named, LACTATE], LABORATORIES, catalogue)
    }
    const known = to('sample metabolic LABORATORY ')
    expect(known.map((group) => group.laboratory?.id)).toEqual(['special', 'special'])
    const [, foreign] = to('Faraway Institute (invented)')
    expect(foreign?.laboratory).toMatchObject({ name: 'Faraway Institute (invented)', pickUps: [] })
    expect(foreign?.laboratory && isOfOrder(foreign.laboratory)).toBe(true)
    expect(foreign?.specimens.map(({ tubeId }) => tubeId)).toEqual(['t1'])
  })

  it('has practice apart from specimens of patients, and last', () => {
    const practice = sampleSpecimens('D7-20261125-0009', [], true)
    const groups = packList([...practice, ...ALL], LABORATORIES, catalogue)
    expect(groups).toHaveLength(6)
    expect(groups.map(({ invented }) => invented)).toEqual([false, false, false, true, true, true])
  })

  it('is of closed draws, and of nothing that has left', () => {
    const sent = sampleSpecimens('D7-20261125-0003', [[400, COURIER]])
    const left = packList(sent, LABORATORIES, catalogue).flatMap(({ specimens }) => specimens)
    expect(left.map(({ tubeId }) => tubeId)).toEqual(['t3', 't2'])
    expect(packSpecimens(sampleLog({ without: ({ type }) => type === 'drawClosed' }))).toEqual([])
  })

  it('loses no specimen and packs none twice, also four hundred of them', () => {
    const many = Array.from({ length: 134 }, (_, n) =>
      sampleSpecimens(`D7-20261125-${String(n).padStart(4, '0')}`),
    ).flat()
    let groups: ReturnType<typeof packList> = []
    const taken = inPlainWork(() => (groups = packList(many, LABORATORIES, catalogue)))
    expect(taken).toBeLessThan(5)
    const packed = groups.flatMap(({ specimens }) => specimens.map(specimenKey))
    expect(packed.sort()).toEqual(many.map(specimenKey).sort())
    expect(new Set(packed).size).toBe(402)
  })
})

describe('how it travels', () => {
  it('never freezes a tube that was not parted from its cells', () => {
    // Whole blood must not freeze: it hemolyzes (common practice; CLSI GP44 from memory).
    const [main] = LABORATORIES
    const frozen = main && { ...main, carriedAt: { ...main.carriedAt, blood: 'frozen' as const } }
    expect(carriedAt(CBC, frozen, catalogue)).toBe('cold')
    const parted = { ...CBC, way: { spins: [], aliquots: { portions: 1, at: CBC.collected } } }
    expect(carriedAt(parted, frozen, catalogue)).toBe('frozen')
  })

  it('is frozen once it lies in the freezer', () => {
    const way = { spins: [], stored: { where: 'freezer' as const, at: CBC.collected } }
    expect(carriedAt({ ...CBC, way }, LABORATORIES[0], catalogue)).toBe('frozen')
  })

  it('is out of time as the catalog says: lactate after 15 minutes, a blood count after 24 hours', () => {
    // Sources stand in the rows of tests.csv: lactate 15 min (labpro.com lactic acid), blood count 24 h (labpro.com CBC).
    const minutes = (each: (typeof ALL)[0]): readonly number[] =>
      deadlines(each, catalogue).map(({ by_ms }) => (by_ms - each.collected.at_ms) / 60_000)
    expect(minutes(LACTATE)).toEqual([15])
    expect(minutes(CBC)).toEqual([1440])
    const limits = deadlines(LACTATE, catalogue)
    const end_ms = LACTATE.collected.at_ms + 15 * 60_000
    expect(passedAt(limits, end_ms)).toEqual([])
    expect(passedAt(limits, end_ms + 1)).toEqual(['lactate'])
  })
})

describe('the count', () => {
  it('counts a label once, however often it is scanned', () => {
    const first = scanned(NOTHING_COUNTED, ALL, ` ${CBC.number.toLowerCase()}\n`)
    expect(first.of).toBe('counted')
    const again = scanned(first.counted, ALL, CBC.number)
    expect(again.of).toBe('again')
    expect(again.counted.size).toBe(1)
  })

  it('counts no label of another device and none that has left', () => {
    expect(scanned(NOTHING_COUNTED, ALL, 'X9261125000301').of).toBe('foreign')
    const sent = sampleSpecimens('D7-20261125-0003', [[400, COURIER]])
    const gone = scanned(NOTHING_COUNTED, sent, CBC.number)
    expect(gone).toMatchObject({ of: 'gone', specimen: { tubeId: 't1' } })
    expect(gone.counted.size).toBe(0)
  })

  it('finds and misses together what the pack holds, whatever is scanned in what order', () => {
    const texts = [...ALL.map(({ number }) => number), 'X9261125000301', '']
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...texts)), (scans) => {
        const counted = scans.reduce(
          (now, text) => scanned(now, ALL, text).counted,
          NOTHING_COUNTED,
        )
        const { found, missing } = counting({ specimens: ALL }, counted)
        const expected = ALL.filter(({ number }) => scans.includes(number))
        expect(found).toEqual(expected)
        expect([...found, ...missing].length).toBe(ALL.length)
      }),
    )
  })

  it('takes back by hand what was counted in error', () => {
    expect(toggled(toggled(NOTHING_COUNTED, BILIRUBIN), BILIRUBIN).size).toBe(0)
  })
})

describe('specimens of another person than their labels say', () => {
  it('go into no pack and count for none; what has left before is known to have left', () => {
    const all = sampleSpecimens('D7-20261125-0003', [
      [400, COURIER],
      [500, wrongPersonAddendum],
    ])
    expect(packList(all, LABORATORIES, catalogue)).toEqual([])
    expect(all.filter(isHeldBack).map(({ tubeId }) => tubeId)).toEqual(['t2', 't3'])
    expect(scanned(NOTHING_COUNTED, all, LACTATE.number)).toMatchObject({
      of: 'held',
      counted: new Set(),
    })
    expect(scanned(NOTHING_COUNTED, all, CBC.number).of).toBe('gone')
  })
})
