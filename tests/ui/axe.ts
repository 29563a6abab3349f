import axe from 'axe-core'

/** What axe finds wrong in the document, one line each. jsdom paints nothing, so color is checked elsewhere. */
export async function axeFindings(): Promise<string[]> {
  const { violations } = await axe.run(document.body, {
    rules: { 'color-contrast': { enabled: false } },
  })
  return violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html}`))
}
