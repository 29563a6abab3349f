import { sha256 } from './adapters/crypto/sha256.ts'
import { verifySignature } from './adapters/crypto/verifySignature.ts'
import { answerJobs, type JobScope } from './adapters/jobs/answerJobs.ts'
import { intakeHandlers } from './app/intake/intakeJobs.ts'

/** The worker in which files are read: wired here, beside the page, and with nothing of it. */
answerJobs(self as unknown as JobScope, intakeHandlers(sha256, verifySignature))
