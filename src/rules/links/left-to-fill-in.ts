import { dayOfUndated } from '../../ledger/undated.js'
import type { KeyPath } from '../../types.js'
import { ledgerFormat, siteRule } from '../rule.js'

/** What `doorsweep new` writes where only a person knows the words. */
const placeholder = 'FILL IN'

export const leftToFillIn = siteRule<{ key: string }>({
  id: 'left-to-fill-in',
  title: 'a blank of a new record was not filled in',
  level: 'error',
  judgedOn: 'the day of the record',
  why: 'A blank has the shape of an answer, so nothing else would notice that there is none.',
  remedy: 'Write what belongs there in place of FILL IN.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: true,
  says: ({ key }) => `\`${key}\` still says ${placeholder}.`,
  *check(view) {
    for (const record of view.records)
      yield* blanksIn(record, 'day' in record ? Number(record.day) : dayOfUndated(view))
  },
  *checkDistrict(view) {
    for (const record of view.records) yield* blanksIn(record, dayOfUndated(view))
  },
  failing: `
=== sites/oak/complaints/2026-03-18-lind.yaml
by: lind
from: staff
says: FILL IN # expect: left-to-fill-in
`,
  passing: `
=== sites/oak/complaints/2026-03-18-lind.yaml
by: lind
from: staff
says: ants on the window sill
`,
})

function* blanksIn(record: { readonly file: string; readonly data: unknown }, from: number) {
  const paths: KeyPath[] = []
  findBlanks(record.data, [], paths)
  for (const path of paths)
    yield { args: { key: String(path.at(-1) ?? '') }, at: { file: record.file, path }, from }
}

/** Every record is walked through and hardly any has a blank: a path is copied only where there is one. */
function findBlanks(value: unknown, path: (string | number)[], found: KeyPath[]): void {
  if (typeof value === 'string') {
    if (value.includes(placeholder)) found.push([...path])
  } else if (Array.isArray(value)) {
    for (let at = 0; at < value.length; at++) {
      path.push(at)
      findBlanks(value[at], path, found)
      path.pop()
    }
  } else if (typeof value === 'object' && value !== null) {
    for (const key of Object.keys(value)) {
      path.push(key)
      findBlanks((value as Record<string, unknown>)[key], path, found)
      path.pop()
    }
  }
}
