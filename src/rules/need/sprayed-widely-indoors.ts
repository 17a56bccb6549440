import { liesOutdoors } from '../../records/area-kinds.js'
import type { Method } from '../../records/use-words.js'
import { sprayApplication } from '../example-applications.js'
import { sprayLabel } from '../label-use/example-ledgers.js'
import { productName } from '../label-use/labelled-treatments.js'
import { commonPractice, siteRule } from '../rule.js'
import { isBait } from './sprays.js'

const wide: ReadonlySet<Method> = new Set(['broadcast', 'baseboard', 'space'])

export const sprayedWidelyIndoors = siteRule<{ product: string; method: string; areas: readonly string[] }>({
  id: 'sprayed-widely-indoors',
  title: 'a pesticide was applied widely indoors',
  level: 'warning',
  judgedOn: 'the day of the application',
  why: 'What is spread along baseboards, over floors or through the air of a room lies where children sit and touch, and mostly misses insects that live in cracks.',
  remedy:
    'Next time treat the cracks and voids where the insects live, with bait or a crack and crevice tool, after cleaning and closing; if it was a spot, correct `method`, and where nothing narrower would do, say so under `chosen-because`.',
  source: commonPractice,
  actor: 'technician',
  gap: false,
  says: ({ product, method, areas }) =>
    `${product} is recorded as applied by ${method} indoors (${areas.map((area) => `\`${area}\``).join(', ')}).`,
  *check(view) {
    for (const treatment of view.treatments) {
      const { application, product, method, formulation } = treatment
      if (!application || treatment.day < view.begins || !wide.has(method)) continue
      const kind = product?.data.kind
      if (kind !== 'pesticide' && kind !== 'minimum-risk') continue
      // A bait is laid, and a fumigation is a trade of its own in an empty building.
      if (isBait(treatment) || formulation === 'fumigant') continue
      const indoors = treatment.areas.filter(({ area }) => area && isRoom(area.facts.kind))
      if (indoors.length === 0) continue
      yield {
        args: { product: productName(treatment), method, areas: indoors.map(({ id }) => id) },
        at: treatment.at('method'),
        from: treatment.day,
      }
    }
  },
  failing: `${sprayLabel('')}${sprayApplication('2026-03-12', 'method: broadcast # expect: sprayed-widely-indoors')}`,
  passing: `${sprayLabel('')}${sprayApplication('2026-03-12', 'method: spot')}`,
})

/** A place indoors where people are; a void holds none. */
function isRoom(kind: Parameters<typeof liesOutdoors>[0]): boolean {
  return liesOutdoors(kind) === false && kind !== 'void'
}
