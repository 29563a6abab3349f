import { SignLines } from '../shared/SignLines.tsx'
import { useTexts } from '../shared/useTexts.ts'

/** Who signs the request. */
export function RequestSigns() {
  const { request } = useTexts().texts
  const { ordered, collected, received } = request.signs
  return <SignLines signs={[ordered, collected, received]} date={request.date} />
}
