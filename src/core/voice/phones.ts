/**
 * ARPAbet phones as CMUdict writes them, without stress, with the features by which ears and recognizers tell them
 * apart.
 */
interface Vowel {
  /** 0 close .. 3 open, and 0 front .. 2 back, by the IPA vowel chart; diphthongs by where they begin. */
  readonly height: number
  readonly back: number
  readonly glides: boolean
}

interface Consonant {
  /** 0 lips .. 6 throat. */
  readonly place: number
  readonly manner: 'stop' | 'affricate' | 'fricative' | 'nasal' | 'liquid' | 'glide'
  readonly voiced: boolean
}

const v = (height: number, back: number, glides = false): Vowel => ({ height, back, glides })
const c = (place: number, manner: Consonant['manner'], voiced: boolean): Consonant => ({
  place,
  manner,
  voiced,
})

const VOWELS: Readonly<Record<string, Vowel>> = {
  IY: v(0, 0), IH: v(0.5, 0), EY: v(1, 0, true), EH: v(2, 0), AE: v(2.5, 0), AA: v(3, 1.5), AO: v(2, 2), OW: v(1, 2, true),
  UH: v(0.5, 1.5), UW: v(0, 2), AH: v(2, 1), ER: v(1.5, 1), AY: v(3, 1, true), AW: v(3, 1, true), OY: v(2, 2, true),
} // prettier-ignore

const CONSONANTS: Readonly<Record<string, Consonant>> = {
  P: c(0, 'stop', false), B: c(0, 'stop', true), M: c(0, 'nasal', true), W: c(0, 'glide', true),
  F: c(1, 'fricative', false), V: c(1, 'fricative', true), TH: c(2, 'fricative', false), DH: c(2, 'fricative', true),
  T: c(3, 'stop', false), D: c(3, 'stop', true), S: c(3, 'fricative', false), Z: c(3, 'fricative', true),
  N: c(3, 'nasal', true), L: c(3, 'liquid', true), R: c(4, 'liquid', true), SH: c(4, 'fricative', false),
  ZH: c(4, 'fricative', true), CH: c(4, 'affricate', false), JH: c(4, 'affricate', true), Y: c(4, 'glide', true),
  K: c(5, 'stop', false), G: c(5, 'stop', true), NG: c(5, 'nasal', true), HH: c(6, 'fricative', false),
} // prettier-ignore

export const isVowel = (phone: string): boolean => phone in VOWELS

/** How far a phone is from another, 0 the same .. 1.3 a vowel for a consonant. The weights are our own judgement. */
export function phoneSubstitution(a: string, b: string): number {
  if (a === b) return 0
  const [va, vb] = [VOWELS[a], VOWELS[b]]
  if (va && vb) {
    const apart = Math.abs(va.height - vb.height) * 0.2 + Math.abs(va.back - vb.back) * 0.15
    return Math.min(0.8, 0.15 + apart + (va.glides === vb.glides ? 0 : 0.15))
  }
  const [ca, cb] = [CONSONANTS[a], CONSONANTS[b]]
  if (!ca || !cb) return 1.3
  const place = Math.min(0.35, Math.abs(ca.place - cb.place) * 0.2)
  return place + (ca.manner === cb.manner ? 0 : 0.4) + (ca.voiced === cb.voiced ? 0 : 0.25)
}

/** What it costs to lose or add a phone: little for sounds that casual speech drops. */
export function phoneLoss(phone: string): number {
  if (phone === 'AH' || phone === 'IH') return 0.6
  if (phone === 'HH' || phone === 'T' || phone === 'D') return 0.5
  return isVowel(phone) ? 0.9 : 0.75
}
