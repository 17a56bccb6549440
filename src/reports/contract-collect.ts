import { getOrMake } from '../ledger/get-or-make.js'
import type { SiteView } from '../ledger/site-view.js'
import type { CheckFacts } from './contract-checks.js'
import { checkFacts } from './contract-checks.js'
import type { ComplaintFact } from './contract-complaints.js'
import { complaintFacts } from './contract-complaints.js'
import type { OpenMatter } from './contract-on-visits.js'
import { openMattersOf } from './contract-on-visits.js'
import type { ContractSpan } from './contract-spans.js'
import { spanOf, spansIn } from './contract-spans.js'
import type { VisitBeyond, VisitDueFact } from './contract-visits.js'
import { visitFacts } from './contract-visits.js'
import type { Period } from './period.js'

/** What was asked and done at one site under one entry of its contract, or without one. */
export interface SpanFacts {
  readonly span: ContractSpan
  readonly visits: VisitDueFact[]
  readonly beyond: VisitBeyond[]
  readonly complaints: ComplaintFact[]
  readonly checks: CheckFacts[]
  readonly open: OpenMatter[]
}

/** The thin facts of one site in a period, by entry of its contract in order of time. */
export function contractFacts(view: SiteView, period: Period): SpanFacts[] {
  const spans = new Map<number, SpanFacts>()
  const factsOf = (index: number) => getOrMake(spans, index, () => nothingYet(spanOf(view, index)))
  if (period.to < view.begins || (view.ends !== undefined && view.ends < period.from)) return []
  for (const index of spansIn(view, period)) factsOf(index)
  const { due, beyond } = visitFacts(view, period)
  for (const fact of due) factsOf(fact.index).visits.push(fact)
  for (const fact of beyond) factsOf(fact.index).beyond.push(fact)
  for (const fact of complaintFacts(view, period)) factsOf(fact.index).complaints.push(fact)
  for (const fact of checkFacts(view, period)) factsOf(fact.index).checks.push(fact)
  for (const fact of openMattersOf(view, period)) factsOf(fact.index).open.push(fact)
  return [...spans.values()].sort((a, b) => a.span.from - b.span.from || a.span.index - b.span.index)
}

function nothingYet(span: ContractSpan): SpanFacts {
  return { span, visits: [], beyond: [], complaints: [], checks: [], open: [] }
}
