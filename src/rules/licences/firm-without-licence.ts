import type { LicenceStanding } from '../../ledger/licences.js'
import { askedBy, citationsOf, licencesOf, standingOf } from '../../ledger/licences.js'
import type { Loaded } from '../../ledger/loaded.js'
import type { Duty } from '../../ledger/rulebooks-in-force.js'
import type { SiteView } from '../../ledger/site-view.js'
import { inForce } from '../../ledger/spans.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isPesticide } from '../../ledger/treatments.js'
import { dutiesFor } from '../../ledger/use-classes.js'
import { isoOf } from '../../measure/calendar.js'
import { levelOfDuty } from '../adopted.js'
import { andMore } from '../products/papers-at-hand.js'
import type { Finding } from '../rule.js'
import { siteRule } from '../rule.js'
import { askedByRulebooks } from './asked-by-rulebooks.js'
import { gelInCracks, inventedAct, ownRulebook } from './example-ledgers.js'

type FirmArgs = {
  /** '' where neither the person nor the contract names a firm. */
  readonly firm: string
  readonly person: string
  /** What is wrong with its licences: a standing, or that no firm is named. */
  readonly standing: string
  readonly states: readonly string[]
  readonly state: string
  readonly categories: readonly string[]
  readonly ended: string
  readonly more: number
}

const own = ownRulebook(`
licences:
  firm: [{${inventedAct} 4, of: firm, in-state: yes}]
`)

export const firmWithoutLicence = siteRule<FirmArgs>({
  id: 'firm-without-licence',
  title: 'no licence in force is recorded of the firm that applied a pesticide',
  level: 'error',
  judgedOn: 'the day of the use, by the licences as they stood then',
  why: 'The firm answers for the training, the insurance and the records of its people; its licence is what the state holds it by.',
  remedy:
    'Write the firm as firms/<id>.yaml with its licence in dated spans, and name it in the record of the person: `firm: invented-pest-services`. Where the staff of the district apply, the district itself is the firm.',
  source: askedByRulebooks('licences'),
  actor: 'coordinator',
  gap: true,
  says: ({ firm, person, standing, states, state, categories, ended, more }) => {
    const uses = `the day of this use${andMore(more)}`
    if (firm === '')
      return `Neither the record of ${person} nor the contract names the firm, so that no licence of it is shown for ${uses}.`
    const wanted = `${state === '' ? '' : ` from ${state}`}${categories.length === 0 ? '' : ` for ${categories.join(' or ')}`}`
    if (standing === 'of-another-state')
      return `The records show ${firm} licensed by ${states.join(', ')} and not by ${state} on ${uses}.`
    return `The records show no licence of ${firm}${wanted} in force on ${uses}${ended === '' ? '' : `; the last one ended on ${ended}`}.`
  },
  *check(view) {
    const gaps = new Map<string, Finding<FirmArgs>>()
    for (const treatment of view.treatments) {
      if (treatment.day < view.begins || !isPesticide(treatment)) continue
      const finding = findingOf(view, treatment)
      if (!finding) continue
      const key = JSON.stringify(finding.identity)
      const gap = gaps.get(key)
      gaps.set(key, gap ? { ...gap, args: { ...gap.args, more: gap.args.more + 1 } } : finding)
    }
    yield* gaps.values()
  },
  failing: `${own}${gelInCracks('okafor # expect: firm-without-licence')}
=== firms/invented-pest-services.yaml
name: Invented Pest Services
address: 4 Invented Road
phone: 555-0100
licences:
  or-operator:
    number: XX-7
    state: OR
    kind: operator
    categories: [structural]
    spans: [{from: 2025-01-01, until: 2026-03-11}]
`,
  passing: own + gelInCracks(),
})

function findingOf(view: SiteView, treatment: Treatment): Finding<FirmArgs> | undefined {
  const person = view.district.people.get(treatment.by)
  if (!person) return undefined
  const { id: firmId, firm } = firmOf(view, treatment, person)
  // A firm that is named and not there, or broken, is told elsewhere.
  if (firmId !== undefined && !firm) return undefined
  const broken = firmStandings(view, treatment, firm)
    .filter(({ isMet }) => !isMet)
    .sort((a, b) => (b.standing?.ended ?? -Infinity) - (a.standing?.ended ?? -Infinity))
  const worst = broken[0]
  if (!worst) return undefined
  const sources = citationsOf(broken.map(({ duty }) => duty))
  const level = levelOfDuty(sources)
  const { standing } = worst
  const asked = askedBy(worst.duty)
  const ended = standing?.ended === undefined ? '' : isoOf(standing.ended)
  return {
    args: {
      firm: firm?.data.name ?? '',
      person: person.data.name,
      standing: standing?.is ?? '',
      states: [...new Set(standing?.licences.map(({ state }) => state))],
      state: asked.state ?? '',
      categories: asked.categories,
      ended,
      more: 0,
    },
    at: { file: treatment.record.file, path: ['by'] },
    from: treatment.day,
    level,
    sources,
    identity: [firm?.id ?? '', firm ? '' : person.id, ended, level],
  }
}

/** The firm that applied: the one of the person, or else of the contract of the site on that day. */
export function firmOf(
  view: SiteView,
  treatment: Treatment,
  person: Loaded<'person'>,
): {
  /** Undefined where neither names one. */
  readonly id: string | undefined
  /** Undefined also where it is named and its record is not there, or cannot be used. */
  readonly firm: Loaded<'firm'> | undefined
} {
  const id = person.data.firm ?? inForce(view.site.data.contract, treatment.day)?.firm
  return { id, firm: id === undefined ? undefined : view.district.firms.get(id) }
}

export interface FirmStanding {
  readonly duty: Duty<'licences'>
  /** Undefined where no firm is named. */
  readonly standing: LicenceStanding | undefined
  readonly isMet: boolean
}

/** How the firm stands to each duty to be licensed that holds for a use. */
export function firmStandings(
  view: SiteView,
  treatment: Treatment,
  firm: Loaded<'firm'> | undefined,
): FirmStanding[] {
  return dutiesFor(view, 'licences', treatment)
    .filter(({ says }) => says.of === 'firm')
    .map((duty) => {
      const standing = firm && standingOf(licencesOf(firm), askedBy(duty), treatment.day)
      return { duty, standing, isMet: standing?.is === 'certified' || standing?.is === 'uncertified' }
    })
}
