/** Pieces that are put into files: what breaks readers, and what would be nonsense if it were taken. */

/** Characters that nobody sees or that turn the text around them, and line breaks of all kinds (UAX #14). */
export const UNSEEN = [
  '\u202e', '\u200b', '\u200d', '\u2066', '\ufeff', '\u00ad', '\u0000', '\u001b', '\u0085', '\u2028', '\u2029',
  '\v', '\f', '\r', '\ufffd', '\ue000', '\u{e0041}', '\u034f',
] as const // prettier-ignore

export const NUMBERS = [
  '-1', '-0.001', '0', '-0', '1e308', '1e999', '-1e999', 'NaN', 'Infinity', '0.0000001', '2147483648',
  '9007199254740993', '99999999999999999999', '1.5', '1,5', '0x10', '١', '٥.٥', '',
] as const // prettier-ignore

/** Days that no calendar has, or that lie where no birth and no expiry lies. */
export const DAYS = [
  '2026-02-31', '2026-02-29', '2999-01-01', '2026-11-26', '1700-01-01', '0000-00-00', '2026-13-01', '2026-1-1',
  '31.02.2026', '٢٠٢٦-٠١-٠١',
] as const // prettier-ignore

export const WORDS = [
  '__proto__', 'constructor', 'toString', '=1+1', '"', "'", ';', ',', '\n', '\t', '{', '}', '[', ']', '\\', '\\u0000',
  'null', 'true', '../../x', 'a'.repeat(5000), ' ', '  ',
] as const // prettier-ignore

/** Units that another country or another row would use. */
export const UNITS = ['_ms', '_min', '_mL', '_lb', '_pct', '_n', '_kPa', ''] as const
