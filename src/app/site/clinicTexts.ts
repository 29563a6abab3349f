import type english from '../../data/en/clinic.json'
import type { TextsOf } from './screenTexts.ts'

/** `clinic.json` of a language: the hub, draws on other devices, what is not in a record. */
export type ClinicTexts = TextsOf<typeof english>
