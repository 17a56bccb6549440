import { isoOf } from '../../../src/measure/calendar.js'
import type { DataMap, Draft } from '../draft.js'
import { copyOf, put, write } from '../draft.js'
import type { FaultKind } from '../fault.js'
import { reportedAt } from '../fault.js'
import { coordinatorOf } from '../site-records.js'

const file = 'exceptions/log-away.yaml'
const at = /^exceptions\//

/** Exceptions that excuse nothing, or for ever. */
export const exceptionFaults: readonly FaultKind[] = [
  {
    name: 'an exception misspells its rule',
    expect: 'exception-names-no-rule',
    at,
    make: (draft) => spoilt(draft, 'rule', 'complaint-log-not-red'),
  },
  {
    name: 'an exception is made to a rule of law',
    expect: 'exception-cannot-excuse-law',
    at,
    make: (draft) => spoilt(draft, 'rule', 'product-without-sds'),
  },
  {
    name: 'an exception holds for two years',
    expect: 'exception-too-long',
    at,
    make: (draft) => spoilt(draft, 'until', isoOf(draft.lastDay + 720)),
  },
]

function spoilt(draft: Draft, key: keyof ReturnType<typeof exception>, value: string) {
  write(draft, file, exception(draft))
  const before = copyOf(draft)
  put(draft, file, [key], value)
  return { ...reportedAt(file, key), before }
}

function exception(draft: Draft) {
  return {
    rule: 'complaint-log-not-read',
    by: coordinatorOf(draft),
    why: 'the log is being bound anew',
    from: isoOf(draft.lastDay - 10),
    until: isoOf(draft.lastDay + 20),
  } satisfies DataMap
}
