import { isoOf } from '../../../src/measure/calendar.js'
import type { DataMap, Draft, KeyPath } from '../draft.js'
import { copyOf, dataOf, listAt, mapAt, put, renameKey, take } from '../draft.js'
import type { FaultKind, Random } from '../fault.js'
import { reportedAt, reportedAtKey } from '../fault.js'

const inRulebooks = /^rulebooks\//
const file = 'rulebooks/tarn-hollow.yaml'

/** What a district writes down of its own duties. */
export const rulebookFaults: readonly FaultKind[] = [
  {
    name: 'a later version of a duty begins on the last day of the earlier one',
    expect: 'rulebook-dates-overlap',
    at: inRulebooks,
    make(draft, random) {
      const { path, version } = dutyOf(draft, random)
      const begins = draft.lastDay - 30
      put(draft, file, path, [
        { ...version, until: isoOf(begins - 1) },
        { ...version, from: isoOf(begins) },
      ])
      const before = copyOf(draft)
      put(draft, file, [...path, 0, 'until'], isoOf(begins))
      return { ...reportedAt(file, ...path, 1, 'from'), before }
    },
  },
  {
    name: 'two versions of a duty begin on one day',
    expect: 'rulebook-dates-overlap',
    at: inRulebooks,
    make(draft, random) {
      const { path, version } = dutyOf(draft, random)
      put(draft, file, path, [version, { ...version, from: '2000-01-02' }])
      const before = copyOf(draft)
      put(draft, file, [...path, 1, 'from'], '2000-01-01')
      return { ...reportedAt(file, ...path, 1, 'from'), before }
    },
  },
  {
    name: 'two versions of a class of uses hold at once',
    expect: 'rulebook-dates-overlap',
    at: inRulebooks,
    make(draft) {
      const path = ['uses', 'bait-out-of-reach']
      const [first] = listAt(dataOf(draft, file), ...path)
      const begins = draft.lastDay - 30
      put(draft, file, path, [
        { ...mapAt(first), from: isoOf(begins) },
        { ...mapAt(first), until: isoOf(begins - 1) },
      ])
      const before = copyOf(draft)
      put(draft, file, [...path, 1, 'until'], isoOf(draft.lastDay))
      return { ...reportedAt(file, ...path, 0, 'from'), before }
    },
  },
  {
    name: 'the name of a value is written in the plural',
    expect: 'rulebook-parameter-unread',
    at: inRulebooks,
    make(draft) {
      put(draft, file, ['parameters'], { 'sds.age': [value('5 years')] })
      const before = copyOf(draft)
      renameKey(draft, file, ['parameters', 'sds.age'], 'sds.ages')
      return { ...reportedAtKey(file, 'parameters', 'sds.ages'), before }
    },
  },
  {
    name: 'a duty is written among the values',
    expect: 'rulebook-parameter-unread',
    at: inRulebooks,
    make(draft) {
      put(draft, file, ['parameters'], { 'sds.age': [value('5 years')] })
      const before = copyOf(draft)
      put(draft, file, ['parameters', 'notice.lead'], [value('72 hours')])
      return { ...reportedAtKey(file, 'parameters', 'notice.lead'), before }
    },
  },
  {
    name: 'the class of a prohibition is misspelt',
    expect: 'rulebook-class-undefined',
    at: inRulebooks,
    make(draft) {
      const path = ['prohibitions', 'experimental', 0, 'holds-for', 0]
      put(draft, file, path, 'experimentel')
      return reportedAt(file, ...path)
    },
  },
  {
    name: 'a class that a duty exempts beside another is taken out',
    expect: 'rulebook-class-undefined',
    at: inRulebooks,
    make(draft) {
      const path = ['emergencies', 'danger', 0, 'not-for']
      put(draft, file, ['uses', 'out-of-sight'], listAt(dataOf(draft, file), 'uses', 'bait-out-of-reach'))
      put(draft, file, path, ['bait-out-of-reach', 'out-of-sight'])
      const before = copyOf(draft)
      take(draft, file, ['uses', 'out-of-sight'])
      return { ...reportedAt(file, ...path, 1), before }
    },
  },
  {
    name: 'the class of a prohibition is defined from a day after it begins',
    expect: 'rulebook-class-undefined',
    at: inRulebooks,
    make(draft) {
      put(draft, file, ['uses', 'experimental', 0, 'from'], '2000-01-02')
      return reportedAt(file, 'prohibitions', 'experimental', 0, 'holds-for', 0)
    },
  },
]

/** One duty of the rulebook, in its only version. */
function dutyOf(draft: Draft, random: Random): { readonly path: KeyPath; readonly version: DataMap } {
  const sections = Object.entries(dataOf(draft, file)).flatMap(([section, duties]) =>
    Object.keys(mapAt(duties))
      .filter((name) => listAt(duties, name).length === 1 && section !== 'uses')
      .map((name): KeyPath => [section, name]),
  )
  const path = random.pick(sections) ?? []
  return { path, version: mapAt(listAt(dataOf(draft, file), ...path)[0]) }
}

function value(text: string): DataMap {
  return {
    from: '2000-01-01',
    value: text,
    source: 'Policy, section 11',
    kind: 'standard',
    confidence: 'read',
  }
}
