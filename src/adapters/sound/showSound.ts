/** What `stillhand:sound` tells: a chime or a prompt was asked for while sound was on. */
export interface SoundAsked {
  readonly kind: 'chime' | 'prompt'
  readonly name: string
}

/** Lets whoever watches the page from outside see which sound was asked for last. */
export function showSound(asked: SoundAsked): void {
  const { dataset } = document.documentElement
  if (asked.kind === 'chime') dataset.lastChime = asked.name
  else dataset.lastPrompt = asked.name
  window.dispatchEvent(new CustomEvent<SoundAsked>('stillhand:sound', { detail: asked }))
}
