import type english from '../../data/en/courier.json'
import type { TextsOf } from './screenTexts.ts'

/** `courier.json` of a language: packs, couriers, manifests and what goes on a round. */
export type CourierTexts = TextsOf<typeof english>
