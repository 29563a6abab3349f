import { errorText } from '../../core/basics/errorText.ts'
import type { JobHandlers, JobTable } from '../../ports/jobs.ts'
import type { JobAnswer, JobRequest } from './workerJobs.ts'

/** The part of a worker's global scope that is used. */
export interface JobScope {
  onmessage: ((event: MessageEvent<JobRequest>) => void) | null
  postMessage(answer: JobAnswer): void
}

/** The worker's side: does what it is asked by name and answers, also when that breaks. */
export function answerJobs<J extends JobTable<J>>(scope: JobScope, handlers: JobHandlers<J>): void {
  const known = new Map<string, (input: never) => unknown>(Object.entries(handlers))
  scope.onmessage = ({ data: { name, input } }) => {
    void (async (): Promise<JobAnswer> => {
      const work = known.get(name)
      if (!work) return { error: `There is no work called "${name}".` }
      try {
        return { output: await work(input as never) }
      } catch (error) {
        return { error: errorText(error) }
      }
    })().then((answer) => scope.postMessage(answer))
  }
}
