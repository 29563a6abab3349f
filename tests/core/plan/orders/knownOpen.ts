/** Orders that do not come out as an expert expects yet, each with what is missing. It may only shrink. */
export const KNOWN_OPEN: Readonly<Record<string, string>> = {
  'ionized-calcium-pth': 'PTH goes into serum',
  'trace-elements': 'the preferred volumes of zinc and copper do not fit one 6 mL tube',
}
