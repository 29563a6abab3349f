import { Frame } from './Frame.tsx'
import { useTexts } from './useTexts.ts'
import { useToStart } from './useToStart.ts'

/** In place of a record that is not there to be read. */
export function NoRecord() {
  const { title, about } = useTexts().texts.app.noRecord
  return (
    <Frame title={title} back={useToStart()}>
      <p className="lead">{about}</p>
    </Frame>
  )
}
