import { defineConfig } from 'vitest/config'
import { BaseSequencer, type TestSpecification } from 'vitest/node'

/** Files that take longest, longest first: one of them begun last would leave the other cores with nothing to do. */
const longest = [
  'tests/mutation/faults.test.ts',
  'tests/cli/same-bytes.test.ts',
  'tests/reports/compliance-agrees.test.ts',
  'tests/cli/hook-command.test.ts',
  'tests/cli/visit-resume.test.ts',
]

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = ({ moduleId }: TestSpecification) => {
      const at = longest.findIndex((file) => moduleId.endsWith(file))
      return at < 0 ? longest.length : at
    }
    return (await super.sort(files)).sort((a, b) => rank(a) - rank(b))
  }
}

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    // Whole-command tests start a process and walk generated ledgers, beside others on a slow machine; the default 5 s is for units.
    testTimeout: 120_000,
    // What one test found is never told to another; the tests of the cache name a folder of their own.
    env: { DOORSWEEP_CACHE: '' },
    // The files of one worker share their modules: to load the whole program for each takes longer than most of the tests.
    // So a test that changes its surroundings (environment, folder) puts them back, and none puts a module in place of another.
    isolate: false,
    // The default leaves one core to vitest itself, which has little to do: on two cores that would be half of them.
    maxWorkers: '100%',
    sequence: { sequencer: LongestFirst },
  },
})
