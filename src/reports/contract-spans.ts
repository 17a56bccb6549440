import type { Contract } from '../ledger/service-terms.js'
import { servicePieces, serviceTermsOn } from '../ledger/service-terms.js'
import type { SiteView } from '../ledger/site-view.js'
import { dayIn } from '../ledger/spans.js'
import type { Day } from '../types.js'
import type { Period } from './period.js'

/** One entry of the contract of a site, or the days on which none is in force. */
export interface ContractSpan {
  readonly site: string
  readonly siteFile: string
  /** Undefined for days without a contract. */
  readonly contract: Contract | undefined
  /** Which entry of `contract` in site.yaml; -1 for days without one. */
  readonly index: number
  readonly from: Day
  /** Last day, where one is stated. */
  readonly until: Day | undefined
}

export const noContract = -1

/** Which entry of the contract is in force on a day. */
export function spanIndexOn(view: SiteView, day: Day): number {
  return serviceTermsOn(view, day)?.index ?? noContract
}

/** Entries of the contract in force on any day of the period that the ledger answers for, then the days without one. */
export function spansIn(view: SiteView, { from, to }: Period): number[] {
  const first = Math.max(from, view.begins)
  const last = view.ends === undefined ? to : Math.min(to, view.ends)
  const found = new Set<number>()
  let covered = first
  for (const piece of servicePieces(view)) {
    if (piece.from > last || (piece.until !== undefined && piece.until <= first)) continue
    found.add(piece.terms.index)
    if (piece.from > covered) found.add(noContract)
    covered = piece.until ?? last + 1
  }
  if (first <= last && covered <= last) found.add(noContract)
  return [...found]
}

export function spanOf(view: SiteView, index: number): ContractSpan {
  const contract = view.site.data.contract[index]
  return {
    site: view.id,
    siteFile: view.site.file,
    contract,
    index,
    from: contract ? dayIn(contract.from) : view.begins,
    until: contract?.until === undefined ? undefined : dayIn(contract.until),
  }
}
