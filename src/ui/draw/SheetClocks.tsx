import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { SmallClocks } from './BigClock.tsx'

/** What must stay in sight while the sheet covers the draw: the alarm with its next word, and every clock. */
export function SheetClocks({
  view,
}: {
  readonly view: Pick<DrawView, 'severe' | 'mainClock' | 'otherClocks'>
}) {
  const { severe, mainClock, otherClocks } = view
  const clocks = [...(mainClock ? [mainClock] : []), ...otherClocks]
  if (!severe && clocks.length === 0) return null
  return (
    <div className="sheetClocks">
      {severe && (
        <p className="sheetAlarm" role="alert">
          <strong>{severe.title}.</strong> {severe.instruction}
        </p>
      )}
      <SmallClocks clocks={clocks} />
    </div>
  )
}
