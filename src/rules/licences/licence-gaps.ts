import { citationsOf } from '../../ledger/licences.js'
import type { Duty } from '../../ledger/rulebooks-in-force.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isPesticide } from '../../ledger/treatments.js'
import { dutiesFor } from '../../ledger/use-classes.js'
import { isoOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'
import { levelOfDuty } from '../adopted.js'
import type { Finding } from '../rule.js'
import type { ApplicatorFault, FoundFault } from './applicator-faults.js'
import { faultOf } from './applicator-faults.js'

/** Facts from which the rules on the licence of the applicator make their sentences. */
export type LicenceArgs = {
  readonly person: string
  /** Who supervised, where that matters; '' if the record names nobody. */
  readonly supervisor: string
  /** Whether the licence spoken of is the supervisor's. */
  readonly supervises: boolean
  /** The licences it rests on, by number. */
  readonly licences: readonly string[]
  /** Their states, and the one asked for; '' for any. */
  readonly states: readonly string[]
  readonly state: string
  /** Their categories, and those of which one is asked for. */
  readonly held: readonly string[]
  readonly categories: readonly string[]
  /** Last day a licence that would do was in force, and the next day one is; '' where there is none. */
  readonly ended: string
  readonly begins: string
  readonly more: number
}

type LicenceFinding = Finding<LicenceArgs>

/** What is asked of whoever applies a pesticide, one finding for each person and gap between licences at a site. */
export function licenceGaps(view: SiteView, fault: ApplicatorFault): readonly LicenceFinding[] {
  let known = gapsOfSite.get(view)
  if (!known) {
    known = allGaps(view)
    gapsOfSite.set(view, known)
  }
  return known.get(fault) ?? []
}

/** Five rules share one walk over the treatments of a site. */
const gapsOfSite = new WeakMap<SiteView, ReadonlyMap<ApplicatorFault, readonly LicenceFinding[]>>()

interface Broken {
  readonly found: FoundFault
  readonly duties: Duty<'licences'>[]
}

function allGaps(view: SiteView): Map<ApplicatorFault, LicenceFinding[]> {
  const gaps = new Map<string, { readonly fault: ApplicatorFault; finding: LicenceFinding }>()
  for (const treatment of view.treatments) {
    if (treatment.day < view.begins || !isPesticide(treatment)) continue
    for (const { found, duties } of brokenIn(view, treatment)) {
      const finding = findingOf(treatment, found, duties)
      // Uses that only custom asks about never hide one that law asks about.
      const key = JSON.stringify([found.fault, finding.identity])
      const gap = gaps.get(key)
      if (!gap) gaps.set(key, { fault: found.fault, finding })
      else gap.finding = { ...gap.finding, args: { ...gap.finding.args, more: gap.finding.args.more + 1 } }
    }
  }
  const byFault = new Map<ApplicatorFault, LicenceFinding[]>()
  for (const { fault, finding } of gaps.values()) byFault.set(fault, [...(byFault.get(fault) ?? []), finding])
  return byFault
}

/** What a treatment falls short of, several duties that are broken in the same way taken together. */
function brokenIn(view: SiteView, treatment: Treatment): Iterable<Broken> {
  const broken = new Map<string, Broken>()
  for (const duty of dutiesFor(view, 'licences', treatment)) {
    const found = duty.says.of === 'applicator' ? faultOf(view, treatment, duty) : undefined
    if (!found) continue
    const key = JSON.stringify([found.fault, found.key, ...aspectOf(found)])
    const same = broken.get(key)
    if (!same) broken.set(key, { found, duties: [duty] })
    else
      broken.set(key, {
        found: together(same.found, found),
        duties: [...same.duties, duty],
      })
  }
  return broken.values()
}

/** What has to be got, where a licence in force falls short: another state's, or a category more. */
function aspectOf({ fault, asked }: FoundFault): readonly string[] {
  if (fault === 'licence-of-another-state') return [asked.state ?? '']
  return fault === 'licence-without-category' ? [...asked.categories].sort() : []
}

/** Two duties broken alike by one person: the gap begins after the last licence, and ends once both are met. */
function together(a: FoundFault, b: FoundFault): FoundFault {
  const [first, last] = (b.standing.ended ?? -Infinity) > (a.standing.ended ?? -Infinity) ? [a, b] : [b, a]
  const begins =
    first.standing.begins === undefined || last.standing.begins === undefined
      ? undefined
      : Math.max(first.standing.begins, last.standing.begins)
  return { ...last, standing: { ...last.standing, begins } }
}

function findingOf(treatment: Treatment, found: FoundFault, duties: Duty<'licences'>[]): LicenceFinding {
  const { person, key, standing, supervisor, asked } = found
  const { begins } = standing
  const sources = citationsOf(duties)
  const level = levelOfDuty(sources)
  return {
    args: {
      person: person.data.name,
      supervisor: supervisor?.data.name ?? '',
      supervises: key === 'supervised-by',
      licences: standing.licences.map(({ number }) => number),
      states: [...new Set(standing.licences.map(({ state }) => state))],
      state: asked.state ?? '',
      held: [...new Set(standing.licences.flatMap(({ categories }) => categories))],
      categories: asked.categories,
      ended: textOf(standing.ended),
      begins: textOf(begins),
      more: 0,
    },
    at: { file: treatment.record.file, path: [key] },
    from: treatment.day,
    level,
    sources,
    identity: [person.id, supervisor?.id ?? '', textOf(standing.ended), level, ...aspectOf(found)],
  }
}

function textOf(day: Day | undefined): string {
  return day === undefined ? '' : isoOf(day)
}
