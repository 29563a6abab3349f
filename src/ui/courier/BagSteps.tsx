import { useCourierTexts } from './useCourierTexts.ts'

/** How a pack is made, in order, with where that is from. */
export function BagSteps() {
  const { bags } = useCourierTexts().texts
  return (
    <details className="bagSteps">
      <summary>{bags.title}</summary>
      <ol>
        {bags.steps.map((step, i) => (
          <li key={i}>{step}</li>
        ))}
      </ol>
      <p className="soft small">{bags.sources}</p>
    </details>
  )
}
