/** What is in a tube. The order of this list is the order of draw; see `orderOfDraw.ts` for the groups and sources. */
export const ADDITIVES = [
  'cultureAerobic',
  'cultureAnaerobic',
  'citrate',
  'plain',
  'activator',
  'activatorGel',
  'thrombin',
  'heparinLithium',
  'heparinLithiumGel',
  'heparinSodium',
  'edtaK2',
  'edtaK3',
  'edtaK2Gel',
  'fluorideOxalate',
  'fluorideCitrate',
  'acd',
  'traceActivator',
  'traceEdta',
] as const
export type Additive = (typeof ADDITIVES)[number]
