/** The text of an answer, or `undefined` where it is longer: a server that sends without end is not read to it. */
export async function readAtMost(
  { body }: Pick<Response, 'body'>,
  most_B: number,
): Promise<string | undefined> {
  if (!body) return ''
  const reader = body.getReader()
  const decoder = new TextDecoder()
  let text = ''
  let read_B = 0
  for (;;) {
    const { done, value } = await reader.read()
    if (done) return text + decoder.decode()
    read_B += value.length
    if (read_B > most_B) {
      await reader.cancel().catch(() => undefined)
      return undefined
    }
    text += decoder.decode(value, { stream: true })
  }
}
