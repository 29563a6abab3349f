import { useEffect } from 'react'
import { isField } from '../shared/listenToKeys.ts'

const STEP: Readonly<Record<string, number>> = {
  ArrowRight: 1,
  ArrowDown: 1,
  ArrowLeft: -1,
  ArrowUp: -1,
}

/** The arrow keys go over the answers of a question, and Space or Enter takes the one that is marked. */
export function useAnswerArrows(): void {
  useEffect(() => {
    function down(event: KeyboardEvent): void {
      const step = STEP[event.key]
      if (
        step === undefined ||
        isField(event.target) ||
        event.ctrlKey ||
        event.altKey ||
        event.metaKey
      )
        return
      const answers = [...document.querySelectorAll<HTMLElement>('.draw [data-place="answer"]')]
      if (answers.length === 0) return
      const at = answers.findIndex((answer) => answer === document.activeElement)
      const from = at < 0 && step < 0 ? answers.length : at
      answers[(from + step + answers.length) % answers.length]?.focus()
      event.preventDefault()
    }
    document.addEventListener('keydown', down)
    return () => document.removeEventListener('keydown', down)
  }, [])
}
