import { isYounger } from './isYounger.ts'
import type { DrawState } from './state.ts'

type Opened = Pick<DrawState, 'opened' | 'openedAt'>

/** Of so young a patient nobody believes a record that says they said their own name and birth date. */
export const tooYoungForOwnName = (s: Opened): boolean => isYounger(s, 'ownName_y')

/** A plain "consent given" of so young a patient does not tell who agreed. */
export const tooYoungToAgree = (s: Opened): boolean => isYounger(s, 'ownConsent_y')
