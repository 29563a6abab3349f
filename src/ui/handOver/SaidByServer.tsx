import type { HandOverTrouble } from '../../app/view/handOverView.ts'
import type { Issue } from '../../core/handOver/issues.ts'
import { useHandOverTexts } from './useHandOverTexts.ts'

/** What keeps something back, in our words and then in the server's own. */
export function SaidByServer({ trouble }: { readonly trouble: HandOverTrouble }) {
  const { texts } = useHandOverTexts()
  const { status, issues } = trouble
  const access = trouble.kind === 'trouble' ? trouble.access : undefined
  const words = texts.trouble[trouble.kind === 'trouble' ? trouble.why : trouble.kind]
  return (
    <>
      <p>{access ? texts.access[access] : words}</p>
      <Issues status={status} issues={issues} />
    </>
  )
}

interface IssuesProps {
  readonly status: number | undefined
  readonly issues: readonly Issue[]
}

export function Issues({ status, issues }: IssuesProps) {
  const { texts, fill } = useHandOverTexts()
  const said = issues.filter(({ text }) => text !== '')
  return (
    <>
      {said.map(({ text }, index) => (
        <p key={index} className="serverSays">
          {fill(texts.said, { text })}
        </p>
      ))}
      {status !== undefined && <p className="soft small">{fill(texts.status, { status })}</p>}
    </>
  )
}
