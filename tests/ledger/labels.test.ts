import { describe, expect, it } from 'vitest'
import type { LabelSays } from '../../src/ledger/labels.js'
import { labelOn, methodOnLabel, pestOnLabel, placeOnLabel } from '../../src/ledger/labels.js'
import type { Loaded } from '../../src/ledger/loaded.js'
import type { AreaKind } from '../../src/records/area-kinds.js'
import type { Method } from '../../src/records/use-words.js'
import { day } from './small-site.js'

describe('the label in force', () => {
  const product = {
    id: 'bait-a',
    file: 'products/bait-a/product.yaml',
    data: {
      labels: [
        { from: '2026-02-01', file: 'b.txt', says: { interval: '14 days' } },
        { from: '2025-01-01', until: '2026-02-28', file: 'a.txt', says: { interval: '7 days' } },
        { from: '2026-04-01', file: 'c.txt' },
      ],
    },
  } as unknown as Loaded<'product'>

  it.each([
    ['2024-12-31', undefined],
    ['2025-01-01', '7 days'],
    ['2026-01-31', '7 days'],
    // both hold in February; the one that began last decides
    ['2026-02-01', '14 days'],
    ['2026-03-31', '14 days'],
    // a new label of which only the file is known: what the old one said is past
    ['2026-04-01', undefined],
  ])('on %s asks for %s', (on, interval) => {
    expect(labelOn(product, day(on))?.says.interval).toBe(interval)
  })

  it('knows where it stands', () => {
    expect(labelOn(product, day('2025-06-01'))?.at('interval')).toEqual({
      file: 'products/bait-a/product.yaml',
      path: ['labels', 1, 'says', 'interval'],
    })
  })
})

describe('places of a label', () => {
  it.each<[LabelSays, AreaKind, ReturnType<typeof placeOnLabel>]>([
    [{}, 'kitchen', undefined],
    [{ places: ['indoors'] }, 'kitchen', 'named'],
    [{ places: ['indoors'] }, 'void', 'named'],
    [{ places: ['indoors'] }, 'playground', 'not named'],
    [{ places: ['outdoors'] }, 'planting', 'named'],
    [{ places: ['outdoors'] }, 'kitchen', 'not named'],
    [{ places: ['kitchen', 'dining'] }, 'dining', 'named'],
    [{ places: ['kitchen'] }, 'classroom', 'not named'],
    // a dock or a place for waste may lie in the open or not
    [{ places: ['indoors'] }, 'loading-dock', undefined],
    [{ places: ['outdoors'] }, 'waste', undefined],
    [{ places: ['kitchen', 'outdoors'] }, 'waste', undefined],
    [{ places: ['kitchen'] }, 'waste', 'not named'],
    [{ places: ['waste'] }, 'waste', 'named'],
    [{ places: ['indoors'], 'not-in': ['kitchen'] }, 'kitchen', 'forbidden'],
    [{ 'not-in': ['kitchen'] }, 'kitchen', 'forbidden'],
    [{ 'not-in': ['kitchen'] }, 'dining', undefined],
  ])('%j: %s is %s', (says, kind, expected) => {
    expect(placeOnLabel(says, kind)).toBe(expected)
  })
})

describe('pests of a label', () => {
  it.each<[LabelSays, string, ReturnType<typeof pestOnLabel>]>([
    [{}, 'german-cockroach', undefined],
    [{ pests: ['german-cockroach'] }, 'german-cockroach', 'named'],
    [{ pests: ['german-cockroach'] }, 'american-cockroach', 'not named'],
    [{ 'pest-groups': ['cockroach'] }, 'american-cockroach', 'named'],
    [{ 'pest-groups': ['cockroach'] }, 'pavement-ant', 'not named'],
    [{ pests: ['silverfish'], 'pest-groups': ['ant'] }, 'pavement-ant', 'named'],
    // a kind that was not told is named with its group
    [{ 'pest-groups': ['ant'] }, 'ant', 'named'],
    // and may be the one kind that is named
    [{ pests: ['norway-rat'] }, 'rat', undefined],
    [{ pests: ['house-mouse'] }, 'rat', 'not named'],
    // the word for all names every kind
    [{ pests: ['rat'] }, 'roof-rat', 'named'],
    [{ pests: ['rat'] }, 'house-mouse', 'not named'],
    [{ pests: ['spider'] }, 'spider-mite', 'not named'],
    // not known, or not identified: other rules speak of it
    [{ pests: ['german-cockroach'] }, 'unidentified', undefined],
    [{ pests: ['german-cockroach'] }, 'snark', undefined],
  ])('%j: %s is %s', (says, pest, expected) => {
    expect(pestOnLabel(says, pest)).toBe(expected)
  })
})

describe('methods of a label', () => {
  it.each<[LabelSays, Method, ReturnType<typeof methodOnLabel>]>([
    [{}, 'spot', undefined],
    [{ methods: ['spot'] }, 'spot', 'named'],
    [{ methods: ['spot'] }, 'broadcast', 'not named'],
    [{ methods: ['bait-placement'] }, 'in-a-station', 'named'],
    [{ methods: ['in-a-station'] }, 'bait-placement', 'not named'],
    [{ methods: ['spot'] }, 'other', undefined],
    [{ methods: ['spot', 'other'] }, 'drench', undefined],
  ])('%j: %s is %s', (says, method, expected) => {
    expect(methodOnLabel(says, method)).toBe(expected)
  })
})
