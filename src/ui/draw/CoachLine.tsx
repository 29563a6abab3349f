import type { DrawView } from '../../app/view/drawViewTypes.ts'

/** The script of a practice draw: what happens around the trainee, and what to say or do now. */
export function CoachLine({ coach }: { readonly coach: NonNullable<DrawView['coach']> }) {
  return (
    <p className="coach" role="note">
      <strong>Practice: {coach.title}.</strong> {coach.tell.join(' ')}{' '}
      {coach.act && <span className="coachAct">{coach.act}</span>}
    </p>
  )
}
