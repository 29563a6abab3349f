import type { BenchTexts } from '../../app/site/benchTexts.ts'
import { testInfo } from '../../app/record/testInfo.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts, type Fill } from '../shared/useTexts.ts'

interface BenchWords {
  readonly bench: BenchTexts
  readonly places: Readonly<Record<string, string>>
  readonly fill: Fill
  readonly testName: (code: string) => string
}

/** The texts of the bench, and the names of places and tests. */
export function useBenchTexts(): BenchWords {
  const { site } = useServices()
  const { fill } = useTexts()
  const { testName } = testInfo(site.catalogue)
  return { bench: site.texts.bench, places: site.texts.record.places, fill, testName }
}
