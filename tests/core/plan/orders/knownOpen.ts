/** Orders that do not come out as an expert expects yet, each with what is missing. It may only shrink. */
export const KNOWN_OPEN: Readonly<Record<string, string>> = {}
