import type { AppState } from '../../src/app/appApi.ts'
import type { OwnVoice } from '../../src/core/voice/ownVoice.ts'
import { STATE } from './views.ts'

/** What a device may have learned of one invented person: something heard best, chosen, failing and never asked. */
export const SAMPLE_VOICE: OwnVoice = {
  usedOn: '2026-11-24',
  counts: {
    confirmPatient: {
      'patient confirmed': { asked: 6, heard: 6, acted: 31, takenBack: 1 },
      'identity confirmed': { asked: 6, heard: 5, acted: 0, takenBack: 0 },
    },
    bandOff: {
      'band released': { asked: 6, heard: 1, acted: 4, takenBack: 0 },
      'band is off': { asked: 6, heard: 6, acted: 22, takenBack: 0 },
    },
    tubeFull: {
      'tube complete': { asked: 3, heard: 2, acted: 14, takenBack: 8 },
      'filling done': { asked: 2, heard: 2, acted: 12, takenBack: 1 },
    },
  },
  levels: [
    { room_dBFS: -52, speech_dBFS: -21 },
    { room_dBFS: -55, speech_dBFS: -19 },
  ],
  chosen: { tubeFull: 'filling done' },
  rests: {},
  never: ['needlestick'],
}

/** The same on a device that two others use. */
export const KNOWN_VOICE: AppState['ownVoice'] = { own: SAMPLE_VOICE, others: 2, offer: undefined }

/** Somebody of this shift has said who draws. */
export const SAID: Partial<AppState> = {
  settings: {
    ...STATE.settings,
    ...{ collectorName: 'Robin Example', collectorInitials: 'RE' },
    collectorSaid_ms: Date.UTC(2026, 10, 25),
  },
}

export const SAMPLE_OFFER: NonNullable<AppState['ownVoice']['offer']> = {
  ...{ drawId: 'D7-20261125-0003', key: 'tubeFull' },
  ...{ from: 'tube complete', to: 'filling done', acted: 14, takenBack: 8 },
}
