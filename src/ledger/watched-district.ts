import type { DistrictView } from './district-view.js'

/** What a site was seen to lean on beside its own files: `person/okafor`, `product/*`, `file:policies/ipm.pdf`, `sites`. */
export type Use = string

/** A district that tells what is asked of it while one site after another is read and judged. */
export interface WatchedDistrict {
  readonly district: DistrictView
  /** Starts over, and gives what was used since the last time. */
  takeUses(): Use[]
}

/**
 * The district's own record, its calendar and its rulebooks are not watched: every site leans on them. What is worked out once for
 * all sites may rest on those alone, since only the first site that asks would be seen to use anything else.
 */
export function watchedDistrict(district: DistrictView): WatchedDistrict {
  let uses = new Set<Use>()
  const note = (use: Use) => void uses.add(use)
  const noting = <T>(use: Use, value: T): T => {
    note(use)
    return value
  }
  const watched: DistrictView = {
    asOf: district.asOf,
    district: district.district,
    recordsBegin: district.recordsBegin,
    calendar: district.calendar,
    parameters: district.parameters,
    rulebooks: district.rulebooks,
    people: watchedMap(district.people, 'person', note),
    products: watchedMap(district.products, 'product', note),
    firms: watchedMap(district.firms, 'firm', note),
    plans: watchedMap(district.plans, 'plan', note),
    hasFile(path) {
      note(`file:${path}`)
      return district.hasFile(path)
    },
    get register() {
      return noting('register', district.register)
    },
    get ownRulebooks() {
      return noting('rulebook/*', district.ownRulebooks)
    },
    get wordings() {
      return noting('wording/*', district.wordings)
    },
    get exceptions() {
      return noting('exception/*', district.exceptions)
    },
    get education() {
      return noting('education/*', district.education)
    },
    get filings() {
      return noting('filing/*', district.filings)
    },
    get reviews() {
      return noting('review/*', district.reviews)
    },
    get records() {
      return noting('district records', district.records)
    },
    get siteIds() {
      return noting('sites', district.siteIds)
    },
    get otherFiles() {
      // Of no one record, and of no use to a site: what leans on it is not remembered.
      return noting('file:any', district.otherFiles)
    },
    broken: watchedSet(district.broken, note),
    source: {
      ...district.source,
      read(path, atMost) {
        note(`file:${path}`)
        return district.source.read(path, atMost)
      },
      sha256(path) {
        note(`file:${path}`)
        return district.source.sha256(path)
      },
    },
  }
  return {
    district: watched,
    takeUses() {
      const taken = [...uses].sort()
      uses = new Set()
      return taken
    },
  }
}

/** A map whose answers are noted: by the key that was asked for, or as a whole where more than one entry was looked at. */
function watchedMap<V>(
  map: ReadonlyMap<string, V>,
  kind: string,
  note: (use: Use) => void,
): ReadonlyMap<string, V> {
  const whole = <T>(answer: T): T => {
    note(`${kind}/*`)
    return answer
  }
  return {
    get(key) {
      note(`${kind}/${key}`)
      return map.get(key)
    },
    has(key) {
      note(`${kind}/${key}`)
      return map.has(key)
    },
    get size() {
      return whole(map.size)
    },
    keys: () => whole(map.keys()),
    values: () => whole(map.values()),
    entries: () => whole(map.entries()),
    forEach: (each) => whole(map).forEach(each),
    [Symbol.iterator]: () => whole(map[Symbol.iterator]()),
  }
}

/** Names of records that cannot be used are `kind id`; whether one is there rests on that record alone. */
function watchedSet(broken: ReadonlySet<string>, note: (use: Use) => void): ReadonlySet<string> {
  const whole = <T>(answer: T): T => {
    note('district records')
    return answer
  }
  return {
    has(name) {
      note(name.replace(' ', '/'))
      return broken.has(name)
    },
    get size() {
      return whole(broken.size)
    },
    keys: () => whole(broken.keys()),
    values: () => whole(broken.values()),
    entries: () => whole(broken.entries()),
    forEach: (each) => whole(broken).forEach(each),
    [Symbol.iterator]: () => whole(broken[Symbol.iterator]()),
  } as ReadonlySet<string>
}
