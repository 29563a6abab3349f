import type { LaboratoryPart } from '../../core/catalogue/laboratories.ts'
import { useTexts } from '../shared/useTexts.ts'
import { RequestRows } from './RequestRows.tsx'

interface RequestToProps {
  readonly part: LaboratoryPart
  readonly page: readonly [number: number, of: number]
}

/** Which laboratory a page of the request is for, and which page of the order it is. */
export function RequestTo({ part: { laboratory }, page: [n, of] }: RequestToProps) {
  const { texts, fill } = useTexts()
  const { request } = texts
  return (
    <>
      {of > 1 && <p>{fill(request.page, { n, of })}</p>}
      <RequestRows
        rows={[
          [request.laboratory, laboratory?.name ?? request.noLaboratory],
          [request.travels, laboratory ? fill(request.mostHours, { n: laboratory.most_h }) : ''],
        ]}
      />
    </>
  )
}
