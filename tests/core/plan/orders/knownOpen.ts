/** Orders that do not come out as an expert expects yet, each with what is missing. It may only shrink. */
export const KNOWN_OPEN: Readonly<Record<string, string>> = {
  'high-hematocrit':
    'at 62 % the preferred volumes and what a sampler leaves take a second citrate tube',
  'drug-levels': 'the time of the last dose is not asked',
  ethanol: 'skin without alcohol is not told',
  'fluoride-lactate-glucose': 'glucose does not go on ice with lactate',
  'glucose-tolerance': 'two times of one order are one draw',
  'ionized-calcium-pth': 'PTH goes into serum',
  'lipids-not-fasting': "a child's tube for an adult, and fasting asked for lipids",
  'newborn-1500-g': 'no micro-collection tubes and no partial fill',
  'newborn-bilirubin-cbc': 'no micro-collection tubes and no partial fill',
  oncology: 'two salts of EDTA for one patient',
  'septic-infant': 'no micro-collection tubes and no partial fill',
  'two-culture-sets': 'two sets are one puncture',
}
