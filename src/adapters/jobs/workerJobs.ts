import { JobError, type JobFault, type Jobs, type JobTable } from '../../ports/jobs.ts'

/** What goes to the worker and what comes back. */
export interface JobRequest {
  readonly name: string
  readonly input: unknown
}
export type JobAnswer = { readonly output: unknown } | { readonly error: string }

/**
 * Runs each piece of work in a worker of its own, so that nothing in it can hold up the page: it is ended when it has
 * answered, when it breaks, or when its time is over, whatever it is doing then.
 * @param start a fresh worker that runs `answerJobs`
 */
export function createWorkerJobs<J extends JobTable<J>>(
  start: () => Worker,
  limit_ms: number,
): Jobs<J> {
  return {
    run: <K extends keyof J & string>(name: K, input: J[K]['input']) =>
      new Promise<J[K]['output']>((resolve, reject) => {
        const worker = started(start)
        if (!worker) {
          reject(new JobError('failed', 'No worker can be started.'))
          return
        }
        const fail = (fault: JobFault, why: string): void => {
          end()
          reject(new JobError(fault, why))
        }
        const timer = setTimeout(() => {
          fail('tooLong', `"${name}" took longer than ${limit_ms} ms.`)
        }, limit_ms)
        const end = (): void => {
          clearTimeout(timer)
          worker.terminate()
        }
        worker.onmessage = ({ data }: MessageEvent<JobAnswer>) => {
          if ('error' in data) {
            fail('failed', data.error)
            return
          }
          end()
          resolve(data.output)
        }
        worker.onmessageerror = () => fail('failed', 'The answer is no plain data.')
        worker.onerror = ({ message }) => fail('failed', message)
        worker.postMessage({ name, input } satisfies JobRequest)
      }),
  }
}

function started(start: () => Worker): Worker | undefined {
  try {
    return start()
  } catch {
    return undefined
  }
}
