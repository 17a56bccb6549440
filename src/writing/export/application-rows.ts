import { getOrMake } from '../../ledger/get-or-make.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isPesticide } from '../../ledger/treatments.js'
import { numberOf } from '../../measure/fractions.js'
import type { Period } from '../../reports/period.js'
import type { WhyNot } from '../../reports/use-amounts.js'
import { activeOf, amountsOf, ingredientsOf, inWords } from '../../reports/use-amounts.js'
import type { Use } from '../../reports/use-collect.js'
import { usesOf } from '../../reports/use-collect.js'
import type { ExportRow } from './table-words.js'

export interface ApplicationRows {
  readonly applications: readonly ExportRow[]
  readonly ingredients: readonly ExportRow[]
}

/** Every use of a pesticide in the period, with the amounts of `report use`, and of what nobody can tell what it is. */
export function applicationRows(view: SiteView, period: Period): ApplicationRows {
  const applications: ExportRow[] = []
  const ingredients: ExportRow[] = []
  // In the order of the treatments, one for each that is of a pesticide.
  const uses = usesOf(view, period, undefined).uses[Symbol.iterator]()
  const names = new Map<string, number>()
  for (const treatment of view.treatments) {
    if (treatment.day < period.from || treatment.day > period.to) continue
    if (treatment.product !== undefined && !isPesticide(treatment)) continue
    const name = nameOnce(names, treatment.id)
    const use = treatment.product === undefined ? undefined : (uses.next().value as Use | undefined)
    applications.push(applicationRow(view, treatment, name, use))
    if (use) ingredients.push(...ingredientRowsOf(use, name))
  }
  return { applications, ingredients }
}

/** Bait can be put into a device twice on one visit: when it was read, and when it was set anew. */
function nameOnce(names: Map<string, number>, id: string): string {
  const nth = getOrMake(names, id, () => 0) + 1
  names.set(id, nth)
  return nth === 1 ? id : `${id}#${nth}`
}

function applicationRow(view: SiteView, treatment: Treatment, name: string, use: Use | undefined): ExportRow {
  const kinds = new Set(treatment.areas.map(({ area }) => area?.facts.kind))
  const [kind] = kinds
  return {
    site: view.id,
    application: name,
    day: treatment.day,
    how: treatment.how,
    product: treatment.productId,
    is_pesticide: use ? true : null,
    made_by: treatment.by,
    method: treatment.method,
    pests: treatment.pests.length === 0 ? null : treatment.pests.join(' '),
    areas: treatment.areas.map(({ id }) => id).join(' '),
    area_kind: kinds.size === 1 ? (kind ?? null) : null,
    ...amountCells(use),
  }
}

function amountCells(use: Use | undefined): ExportRow {
  if (!use) return { weight_g: null, volume_ml: null, pieces: null, piece: null, is_whole: null }
  const { grams, millilitres, pieceCounts } = amountsOf([use])
  const [first] = pieceCounts
  return {
    weight_g: grams,
    volume_ml: millilitres,
    pieces: pieceCounts.size === 1 ? (first?.[1] ?? null) : null,
    piece: pieceCounts.size > 1 ? 'several' : (first?.[0] ?? null),
    is_whole: use.isWhole,
  }
}

function ingredientRowsOf(use: Use, name: string): ExportRow[] {
  return ingredientsOf(use.product).map(({ id }) => {
    const told = activeOf([use], id)
    const whyNot = new Set<WhyNot>([...told.whyNot, ...(use.isWhole ? [] : (['no-amount'] as const))])
    return {
      site: use.siteId,
      application: name,
      day: use.day,
      product: use.product.id,
      ingredient: id,
      active_g: told.grams ? numberOf(told.grams) : null,
      is_whole: whyNot.size === 0,
      why_not: inWords(whyNot),
    }
  })
}
