/** Orders that do not come out as an expert expects yet, each with what is missing. It may only shrink. */
export const KNOWN_OPEN: Readonly<Record<string, string>> = {
  'drug-levels': 'when to draw stands among the details; the last dose is not asked',
  'glucose-tolerance': 'two times of one order are one draw',
  'ionized-calcium-pth': 'PTH goes into serum',
  'trace-elements': 'the preferred volumes of zinc and copper do not fit one 6 mL tube',
  'two-culture-sets': 'two sets are one puncture',
}
