interface SignLinesProps {
  readonly signs: readonly string[]
  /** The word before the place for a date; none where the paper bears its time already. */
  readonly date?: string
}

/** Lines of a paper to sign on. */
export function SignLines({ signs, date = '' }: SignLinesProps) {
  return (
    <section className="requestSigns">
      {signs.map((sign, i) => (
        <p key={i}>
          <span>{sign}</span>
          <i />
          <span>{date}</span>
          <i />
        </p>
      ))}
    </section>
  )
}
