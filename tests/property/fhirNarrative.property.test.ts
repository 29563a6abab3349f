// @vitest-environment jsdom
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bundleOf } from '../support/fhirBundle.ts'
import { sampleLog, sampleOpening } from '../support/sampleLog.ts'

const HOSTILE = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  ']]>',
  '&lt;b&gt;',
  '</div></body>',
  "' onclick='x",
  '\u0000\u0008\ufffe\ud800',
]

/** Elements and attributes that R4 allows in a narrative and that ours uses. */
const ELEMENTS = new Set(['div', 'p', 'b', 'ul', 'li'])

describe('the words of a resource', () => {
  it('are XHTML of plain text alone, whatever a name holds, and say the name', () => {
    const name = fc.oneof(
      fc.constantFrom(...HOSTILE),
      fc.string({ unit: 'binary', minLength: 1, maxLength: 40 }),
    )
    fc.assert(
      fc.property(name, name, (fullName, provider) => {
        const { patient, order } = sampleOpening()
        const log = sampleLog({
          opening: { patient: { ...patient, fullName }, order: { ...order, provider } },
        })
        for (const { resource } of bundleOf(log).entry) {
          const { div = '', status } = resource.text ?? {}
          expect(status).toBe('generated')
          const read = new DOMParser().parseFromString(div, 'application/xhtml+xml')
          expect(read.querySelector('parsererror')).toBeNull()
          for (const element of read.querySelectorAll('*')) {
            expect(ELEMENTS.has(element.localName)).toBe(true)
            expect(element.namespaceURI).toBe('http://www.w3.org/1999/xhtml')
            expect(element.attributes.length).toBe(element.localName === 'div' ? 1 : 0)
          }
          expect(read.documentElement.textContent?.trim()).not.toBe('')
          if (resource.resourceType === 'Patient' && /^[ -~]*[!-~][ -~]*$/.test(fullName)) {
            expect(read.documentElement.textContent).toContain(fullName)
          }
        }
      }),
      { numRuns: 60 },
    )
  })
})
