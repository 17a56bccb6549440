import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    // Whole-command tests start a process and walk generated ledgers; the default 5 s is for units.
    testTimeout: 60_000,
    // What one test found is never told to another; the tests of the cache name a folder of their own.
    env: { DOORSWEEP_CACHE: '' },
  },
})
