import react from '@vitejs/plugin-react'
import { defineConfig } from 'vitest/config'

const needsChromium = ['tests/e2e/**/*.e2e.ts', 'tests/**/*.chromium.test.ts']

/**
 * `unit` runs in Node (jsdom where a file asks for it); `e2e` drives a real Chromium against the built app,
 * `STILLHAND_LANES` files at a time (one when not set).
 */
export default defineConfig({
  test: {
    coverage: { include: ['src/**/*.{ts,tsx}'] },
    projects: [
      {
        plugins: [react()],
        test: {
          name: 'unit',
          environment: 'node',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: needsChromium,
          restoreMocks: true,
          // They also run beside others that must not wait.
          testTimeout: 300_000,
          hookTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'servers',
          environment: 'node',
          include: ['tests/servers/**/*.servers.ts'],
          // One engine at a time: each works every core.
          maxWorkers: 1,
          testTimeout: 600_000,
        },
      },
      {
        test: {
          name: 'e2e',
          environment: 'node',
          include: needsChromium,
          globalSetup: 'tests/support/e2eServer.ts',
          maxWorkers: Number(process.env.STILLHAND_LANES ?? 1),
          testTimeout: 300_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
})
