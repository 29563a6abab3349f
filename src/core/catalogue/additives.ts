/** What is in a tube. The order of this list is the order of draw; see `orderOfDraw.ts` for the groups and sources. */
export const ADDITIVES = [
  'cultureAerobic',
  'cultureAnaerobic',
  'cultureMycobacterial',
  'sps',
  'discard',
  'citrate',
  'ctad',
  'citrateEsr',
  'plain',
  'traceActivator',
  'activator',
  'activatorGel',
  'thrombin',
  'heparinLithium',
  'heparinLithiumGel',
  'heparinSodium',
  'heparinBalanced',
  'traceEdta',
  'edtaK2',
  'edtaK3',
  'edtaK2Gel',
  'edtaAprotinin',
  'fluorideOxalate',
  'fluorideCitrate',
  'acd',
  'cellFreeDna',
  'igraNil',
  'igraAntigen1',
  'igraAntigen2',
  'igraMitogen',
  'filterPaper',
] as const
export type Additive = (typeof ADDITIVES)[number]

/** What a test may not tolerate in a tube, and the additives that have it. */
export const TUBE_TRAITS = {
  gel: ['activatorGel', 'heparinLithiumGel', 'edtaK2Gel'],
  lithium: ['heparinLithium', 'heparinLithiumGel', 'heparinBalanced'],
  sodium: ['heparinSodium', 'fluorideOxalate', 'fluorideCitrate', 'citrate', 'ctad', 'citrateEsr'],
} as const satisfies Readonly<Record<string, readonly Additive[]>>
export type TubeTrait = keyof typeof TUBE_TRAITS

/** In a fixed proportion to the blood, or made for one volume: such a tube is never planned part full. */
const FIXED_VOLUME: readonly Additive[] = [
  'cultureAerobic',
  'cultureAnaerobic',
  'cultureMycobacterial',
  'sps',
  'citrate',
  'ctad',
  'citrateEsr',
  'acd',
  'cellFreeDna',
  'igraNil',
  'igraAntigen1',
  'igraAntigen2',
  'igraMitogen',
  'filterPaper',
]

export function needsFixedVolume(additive: Additive): boolean {
  return FIXED_VOLUME.includes(additive)
}

/** Whether a tube has something in it that a test must never meet. */
export function hasTrait(additive: Additive, traits: readonly TubeTrait[] = []): boolean {
  return traits.some((trait) => TUBE_TRAITS[trait].some((name) => name === additive))
}

/** The salts of EDTA that counts are made from, the preferred one first. */
export const SALTS = ['K2', 'K3'] as const
const SALT_OF: Readonly<Partial<Record<Additive, (typeof SALTS)[number]>>> = {
  edtaK2: 'K2',
  edtaK3: 'K3',
  edtaK2Gel: 'K2',
}

export function findSalt(additive: Additive): (typeof SALTS)[number] | undefined {
  return SALT_OF[additive]
}
