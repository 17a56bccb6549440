import { dayIn } from '../../ledger/spans.js'
import { isoOf } from '../../measure/calendar.js'
import { levelOfDuty } from '../adopted.js'
import { commonPractice, districtRule } from '../rule.js'

const parameter = 'coordinator.named'

export const noCoordinator = districtRule<{ since: string; until: string }>({
  id: 'no-coordinator',
  title: 'nobody is named as coordinator',
  level: 'error',
  judgedOn: 'each day of the gap',
  why: 'One person answers for the programme: who decides in an emergency, and whom parents call, must never be open.',
  remedy:
    'Name who took over, from the day on which they did: `coordinator: [{from: 2026-03-01, until: 2026-03-14, who: marsh}, {from: 2026-03-15, who: vale}]`.',
  source: commonPractice,
  actor: 'coordinator',
  gap: true,
  parameters: [parameter],
  says: ({ since, until }) =>
    `From ${since}${until === '' ? ' on' : ` to ${until}`} the district names no coordinator.`,
  *check(view) {
    const spans = view.district.data.coordinator
      .map(({ from, until }, n) => ({
        n,
        from: dayIn(from),
        end: until === undefined ? Number.POSITIVE_INFINITY : dayIn(until),
      }))
      .sort((a, b) => a.from - b.from)
    let covered = view.recordsBegin - 1
    let last = spans[0]?.n ?? 0
    for (const span of [...spans, { n: -1, from: Number.POSITIVE_INFINITY, end: Number.POSITIVE_INFINITY }]) {
      const since = covered + 1
      const asked =
        since < span.from ? view.parameters(parameter, Math.min(since, view.asOf), 'most') : undefined
      if (asked?.value === 'yes') {
        const isOpen = span.from === Number.POSITIVE_INFINITY
        yield {
          args: { since: isoOf(since), until: isOpen ? '' : isoOf(span.from - 1) },
          at: { file: view.district.file, path: ['coordinator', last] },
          from: since,
          ...(isOpen ? {} : { until: span.from }),
          level: levelOfDuty(asked.sources) === 'note' ? 'warning' : levelOfDuty(asked.sources),
          sources: asked.sources,
        }
      }
      if (span.end > covered) {
        covered = span.end
        last = span.n
      }
      if (covered === Number.POSITIVE_INFINITY) return
    }
  },
  failing: `
=== district.yaml
format: 1
name: Example District
state: OR
time-zone: America/Los_Angeles
records-begin: 2026-03-01
coordinator:
  - {from: 2026-03-01, until: 2026-03-14, who: marsh} # expect: no-coordinator
rulebooks:
  - {from: 2026-03-01, rulebook: practice}
  - {from: 2026-03-01, rulebook: us-federal}
calendar: [{from: 2025-09-02, until: 2026-06-12}]
`,
  passing: `
=== district.yaml
format: 1
name: Example District
state: OR
time-zone: America/Los_Angeles
records-begin: 2026-03-01
coordinator:
  - {from: 2026-03-01, until: 2026-03-14, who: marsh}
  - {from: 2026-03-15, who: lind}
rulebooks:
  - {from: 2026-03-01, rulebook: practice}
  - {from: 2026-03-01, rulebook: us-federal}
calendar: [{from: 2025-09-02, until: 2026-06-12}]
`,
})
