/** What a piece of work takes and what it gives; both must be plain data, for they may pass between threads. */
export interface Job<I, O> {
  readonly input: I
  readonly output: O
}

/** Work by name: what each piece takes and gives. */
export type JobTable<J> = { readonly [K in keyof J]: Job<unknown, unknown> }

/** What does the work, by name. */
export type JobHandlers<J extends JobTable<J>> = {
  readonly [K in keyof J]: (input: J[K]['input']) => J[K]['output'] | Promise<J[K]['output']>
}

/** Runs work that may take long without holding up whoever asks. Rejects with a `JobError`. */
export interface Jobs<J extends JobTable<J>> {
  run<K extends keyof J & string>(name: K, input: J[K]['input']): Promise<J[K]['output']>
}

/** `tooLong`: it was given up after its time; `failed`: it could not be begun, or broke. */
export type JobFault = 'tooLong' | 'failed'

export class JobError extends Error {
  override readonly name = 'JobError'
  readonly fault: JobFault

  constructor(fault: JobFault, message: string) {
    super(message)
    this.fault = fault
  }
}
