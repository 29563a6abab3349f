import { statSync } from 'node:fs'
import type { VitePWAOptions } from 'vite-plugin-pwa'
import { headersMark } from './contentPolicy.ts'
import { copiedFiles } from './copiedFiles.ts'
import { SITE_FILES } from './siteFiles.ts'
import { SHIPPED_MODEL } from '../../src/app/site/speechModels.ts'

/** A larger file is kept when it is first used instead of with the app. */
const KEPT_WITH_APP_B = 8 * 1024 * 1024

const isOtherModel = (name: string): boolean =>
  /^models\/.*\.(tar\.gz|zip)$/.test(name) && name !== `models/${SHIPPED_MODEL}`

/**
 * The app works without a network after its first load: page, recognizer, sounds and the app's own model are kept. Any
 * other model is kept once a person has chosen it and it was loaded.
 * A new version waits until a person takes it, or every page of the old one is closed, so that no draw changes under
 * a person's hands.
 */
export function offline(root: string, connect: readonly string[]): Partial<VitePWAOptions> {
  const lazyFiles = [...copiedFiles(root)]
    .filter(([name, file]) => isOtherModel(name) || statSync(file).size > KEPT_WITH_APP_B)
    .map(([name]) => name)
  return {
    strategies: 'generateSW',
    registerType: 'prompt',
    // The app registers it by itself, so that it knows of a version that waits.
    injectRegister: false,
    manifest: {
      id: '/',
      name: 'Stillhand',
      short_name: 'Stillhand',
      description:
        'Hands-free companion for drawing blood: plans the tubes, listens, keeps the clocks, writes the record.',
      lang: 'en',
      dir: 'ltr',
      categories: ['medical'],
      display: 'standalone',
      orientation: 'any',
      // Opened again it comes to the front: one page a device, and a draw that runs goes on.
      launch_handler: { client_mode: 'focus-existing' },
      start_url: '/',
      scope: '/',
      background_color: '#f3efe6',
      theme_color: '#f3efe6',
      icons: [
        ...['192', '512'].flatMap((px) => [
          { src: `/icons/mark-${px}.png`, sizes: `${px}x${px}`, type: 'image/png', purpose: 'any' },
          {
            src: `/icons/mask-${px}.png`,
            sizes: `${px}x${px}`,
            type: 'image/png',
            purpose: 'maskable',
          },
        ]),
        { src: '/icons/mark.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' },
      ],
    },
    workbox: {
      cacheId: `stillhand-${headersMark(connect)}`,
      globPatterns: [
        '**/*.{html,js,css,json,csv,svg,png,woff2,wasm,wav,ogg,mp3,m4a,webm,gz,zip,txt}',
      ],
      // Where the hub is, is asked of the site at each start; a device that has joined keeps it itself.
      globIgnores: [...lazyFiles, ...SITE_FILES],
      maximumFileSizeToCacheInBytes: KEPT_WITH_APP_B,
      clientsClaim: true,
      skipWaiting: false,
      cleanupOutdatedCaches: true,
      navigateFallback: '/index.html',
      runtimeCaching: [
        {
          // Files of the version before, for a page that still runs it.
          urlPattern: ({ url, sameOrigin }) => sameOrigin && url.pathname.startsWith('/assets/'),
          handler: 'CacheFirst',
          options: { cacheName: 'assets-before', cacheableResponse: { statuses: [200] } },
        },
        {
          urlPattern: ({ url, sameOrigin }) => sameOrigin && url.pathname.startsWith('/models/'),
          handler: 'CacheFirst',
          options: { cacheName: 'models', cacheableResponse: { statuses: [200] } },
        },
      ],
    },
  }
}
