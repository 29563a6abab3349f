import { useEffect, useState, type ReactNode } from 'react'
import { useApp, useServices } from '../shared/appContext.tsx'
import { SeriesRequest } from './SeriesRequest.tsx'

/** The request of one series on paper, one at a time, wherever on the screen it was asked for. */
export function useSeriesPaper(): {
  readonly print: (id: string) => void
  readonly paper: ReactNode
} {
  const series = useApp((s) => s.series)
  const { page } = useServices()
  // It stays on the paper: some browsers print only after the call.
  const [printed, setPrinted] = useState<{ readonly id: string }>()
  useEffect(() => {
    if (printed) page.print()
  }, [printed, page])
  const onPaper = series.find(({ id }) => id === printed?.id)
  return {
    print: (id) => setPrinted({ id }),
    paper: onPaper && <SeriesRequest series={onPaper} />,
  }
}
