import { shippedSite } from './site.ts'

export const texts = shippedSite.texts.lock
export const PIN_WRONG_TEXT = texts.locked.wrong
