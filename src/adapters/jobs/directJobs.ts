import { errorText } from '../../core/basics/errorText.ts'
import { JobError, type JobHandlers, type Jobs, type JobTable } from '../../ports/jobs.ts'

/** Does the work where it is asked for: in tests, and where there are no workers. It can not be ended early. */
export function createDirectJobs<J extends JobTable<J>>(handlers: JobHandlers<J>): Jobs<J> {
  return {
    run: async (name, input) => {
      try {
        // Copied both ways, as between threads: what is no plain data fails here too.
        return structuredClone(await handlers[name](structuredClone(input)))
      } catch (error) {
        throw new JobError('failed', errorText(error))
      }
    },
  }
}
