import { byLaboratory, type Laboratory } from '../../core/catalogue/laboratories.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface SharedTubesProps {
  readonly tubes: readonly {
    readonly id: string
    readonly name: string
    readonly tests: readonly string[]
  }[]
  /** The laboratory whose page this is; without it the first one of each tube. */
  readonly here?: Laboratory | undefined
}

/** Tubes with tests for another laboratory as well: one tube cannot go to two. */
export function SharedTubes({ tubes, here }: SharedTubesProps) {
  const { site, testName } = useServices()
  const { texts, fill } = useTexts()
  const { request } = texts
  const shared = tubes.flatMap((tube) => {
    const parts = byLaboratory(site.laboratories, tube.tests)
    const [first] = parts
    const own = here ?? first?.laboratory
    const others = parts.filter(({ laboratory }) => laboratory !== own)
    return others.map(({ laboratory, tests }) => ({
      key: `${tube.id} ${laboratory?.id ?? ''}`,
      text: fill(request.shared, {
        tube: tube.name,
        tests: tests.map(testName).join(', '),
        laboratory: laboratory?.name ?? request.noLaboratory,
      }),
    }))
  })
  if (shared.length === 0) return null
  return (
    <ul className="warnBox">
      {shared.map(({ key, text }) => (
        <li key={key}>{text}</li>
      ))}
    </ul>
  )
}
