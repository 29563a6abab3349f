/**
 * Keys that nothing else on the screen of a draw means: no character, which a scanner types; no choice; no arrow, which
 * goes over answers; nothing that the browser keeps for itself (help, search, reload, the whole screen, its tools).
 * Pedals are delivered with keys of this kind or can be set to one. (Common practice, no source.)
 */
const PEDAL_KEYS: ReadonlySet<string> = new Set([
  ...['F2', 'F4', 'F8', 'F9', 'F10'],
  ...Array.from({ length: 12 }, (_, i) => `F${i + 13}`),
  ...['PageUp', 'PageDown', 'Home', 'End', 'Insert', 'Pause', 'ScrollLock'],
  ...['MediaPlayPause', 'MediaTrackNext', 'MediaTrackPrevious', 'MediaStop'],
])

/** Whether a key, by its code (`F13`), may hold the ears open. */
export const isPedalKey = (code: string): boolean => PEDAL_KEYS.has(code)
