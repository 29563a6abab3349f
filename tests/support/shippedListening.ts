import { readListeningLimits } from '../../src/app/site/listeningLimits.ts'
import limits from '../../src/data/listening.json' with { type: 'json' }

/** By what a phrase is told from talk, as it ships. */
export const shippedListening = readListeningLimits(limits)
