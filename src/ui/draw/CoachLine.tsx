import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { useTexts } from '../shared/useTexts.ts'

/** The script of a practice draw: what happens around the trainee, and what to say or do now. */
export function CoachLine({ coach }: { readonly coach: NonNullable<DrawView['coach']> }) {
  const { texts, fill } = useTexts()
  return (
    <p className="coach" role="note">
      <strong>{fill(texts.draw.practice, { title: coach.title })}</strong> {coach.tell.join(' ')}{' '}
      {coach.act && <span className="coachAct">{coach.act}</span>}
    </p>
  )
}
