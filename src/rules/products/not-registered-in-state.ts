import type { Loaded } from '../../ledger/loaded.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { DatedSpan } from '../../ledger/spans.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isPesticide } from '../../ledger/treatments.js'
import { dutiesFor } from '../../ledger/use-classes.js'
import { levelOfDuty } from '../adopted.js'
import { underOwnRulebook } from '../own-rulebook.js'
import { siteRule } from '../rule.js'
import { baitA, useOn } from './example-ledgers.js'
import { andMore, gapsOf } from './papers-at-hand.js'

type StateArgs = {
  readonly product: string
  readonly state: string
  readonly recorded: boolean
  readonly more: number
}

export const notRegisteredInState = siteRule<StateArgs>({
  id: 'not-registered-in-state',
  title: 'a product was used and the register does not show it registered in the state',
  level: 'error',
  judgedOn: 'the day of the use',
  why: 'A state registers pesticides apart from the federal number, and often for a year only; what is not registered there is not used there.',
  remedy:
    'Look the product up in the register of the state and enter the days it holds for: `states: {OR: [{from: 2026-01-01, until: 2026-12-31}]}`. If it is not there, it is not used.',
  source: { kind: 'law', text: 'the registration law of the state, as its rulebook cites it' },
  actor: 'coordinator',
  gap: true,
  says: ({ product, state, recorded, more }) => {
    const where = state === '' ? 'in a state' : `in ${state}`
    return recorded
      ? `The register shows no registration of ${product} ${where} in force on the day of this use${andMore(more)}.`
      : `The register does not show in which states ${product} is registered, and so not that it was ${where} on the day of this use${andMore(more)}.`
  },
  *check(view) {
    const asking = new Map(
      view.treatments.filter(isPesticide).map((use) => [use, inStateDuties(view, use)] as const),
    )
    for (const state of new Set([...asking.values()].flat().map((duty) => duty.of))) {
      const gaps = gapsOf(
        view,
        (product) => registrationsIn(state, product),
        (use) => (asking.get(use) ?? []).filter((duty) => duty.of === state).map((duty) => duty.citation),
      )
      for (const { product, first, more, until, sources } of gaps)
        yield {
          args: { product: product.data.name, state, recorded: product.data.states !== undefined, more },
          at: first.at('product'),
          from: first.day,
          ...(until === undefined ? {} : { until }),
          identity: [product.id, state],
          level: levelOfDuty(sources),
          sources,
        }
    }
  },
  failing:
    underOwnRulebook(inState()) +
    baitA({ states: '{OR: [{from: 2025-01-01, until: 2026-03-11}]}' }) +
    useOn('12', ' # expect: not-registered-in-state'),
  passing:
    underOwnRulebook(inState()) +
    baitA({ states: '{OR: [{from: 2025-01-01, until: 2026-03-12}]}' }) +
    useOn('12'),
})

/** Spans in which the register has a product registered in a state, or in any where none is named. */
export function registrationsIn(
  state: string,
  { data }: Loaded<'product'>,
): readonly DatedSpan[] | undefined {
  // A special local need registration is one of a state; where it is good is judged by its own rule.
  if (data['special-local-need'] !== undefined) return undefined
  return state === '' ? Object.values(data.states ?? {}).flat() : (data.states?.[state] ?? [])
}

/** Duties that ask for a registration in a state; the state is that of the rulebook, or else of the district. */
export function inStateDuties(view: SiteView, use: Treatment) {
  return dutiesFor(view, 'registrations', use)
    .filter(({ says }) => says['in-state'] === 'yes')
    .map(({ state, citation }) => ({ of: state ?? view.district.district.data.state ?? '', citation }))
}

function inState(): string {
  return `
registrations:
  in-state:
    - {from: 2020-01-01, in-state: yes, kind: law, confidence: read, source: "Invented Pest Act, section 2"}
`
}
