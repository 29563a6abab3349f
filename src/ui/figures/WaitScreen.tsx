import { useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { useToStart } from '../shared/useToStart.ts'

/** While the screen of figures is loaded. */
export function WaitScreen() {
  const { figures } = useServices().site.texts
  return (
    <Frame title={figures.title} back={useToStart()}>
      <p role="status">{figures.wait}</p>
    </Frame>
  )
}
