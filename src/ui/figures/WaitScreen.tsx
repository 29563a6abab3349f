import { Frame } from '../shared/Frame.tsx'
import { useToStart } from '../shared/useToStart.ts'

interface WaitScreenProps {
  readonly title: string
  readonly text: string
}

/** While a screen is loaded that is no part of the first. */
export function WaitScreen({ title, text }: WaitScreenProps) {
  return (
    <Frame title={title} back={useToStart()}>
      <p role="status">{text}</p>
    </Frame>
  )
}
