import type { Plugin } from 'vite'
import { metaPolicy } from './contentPolicy.ts'

/** Puts the page's content policy into the built page, for hosts that set no headers. Not while developing. */
export function policyMeta(connect: readonly string[]): Plugin {
  return {
    name: 'stillhand-policy-meta',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler: () => [
        {
          tag: 'meta',
          attrs: { 'http-equiv': 'Content-Security-Policy', content: metaPolicy(connect) },
          injectTo: 'head-prepend',
        },
      ],
    },
  }
}
