import { ownValue } from '../../core/basics/ownValue.ts'

/** Paint for the site's closure words. The word always stands beside it; nothing is decided by it. */
const PAINT: Readonly<Record<string, string>> = {
  red: '#b3322c',
  gold: '#c89b2c',
  yellow: '#e0c22e',
  orange: '#d8762a',
  green: '#3f7f4a',
  'light green': '#8fbf7f',
  'light blue': '#8fc0d8',
  blue: '#3f6fa8',
  'royal blue': '#27408b',
  lavender: '#9a86bd',
  purple: '#7a5a9e',
  pink: '#d99aa8',
  gray: '#8d8f8e',
  grey: '#8d8f8e',
  white: '#f4f2ec',
  clear: '#eef0ec',
  tan: '#b99b76',
  brown: '#7a5538',
  black: '#2a2a2a',
}

/** A color for the word, or `undefined` when the word is not a known color. */
export function closureColor(word: string): string | undefined {
  return ownValue(PAINT, word.trim().toLowerCase())
}
