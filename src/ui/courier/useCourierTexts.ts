import type { PackGroup } from '../../core/courier/packList.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { useServices } from '../shared/appContext.tsx'
import type { Fill } from '../shared/useTexts.ts'

/** The texts of packs and couriers, and a pack as it is called. */
export function useCourierTexts() {
  const { courier, screens } = useServices().site.texts
  const fill: Fill = (text, values) => fillText(text, values, screens.language)
  return {
    texts: courier,
    fill,
    /** `Central laboratory, cold, kept dark`. */
    packName: ({ laboratory, carriedAt, dark }: PackGroup): string =>
      fill(dark ? courier.groupDark : courier.group, {
        laboratory: laboratory?.name ?? courier.noLaboratory,
        how: courier.carriedAt[carriedAt],
      }),
  }
}
