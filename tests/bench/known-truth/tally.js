/**
 * Shares that know how sure they are. What happens within one ledger hangs together, so the standard error of a share is
 * that of a ratio of sums over ledgers, not over what was counted in them.
 */
export function tally() {
  const sums = new Map()
  let here = new Map()
  return {
    /** Counts one case of a share; with nothing for a hit where it did not happen. */
    count(name, hit) {
      const one = here.get(name) ?? { hits: 0, cases: 0 }
      one.hits += Number(hit)
      one.cases += 1
      here.set(name, one)
    },
    endLedger() {
      for (const [name, { hits, cases }] of here) {
        const sum = sums.get(name) ?? { hits: 0, cases: 0, hits2: 0, both: 0, cases2: 0, ledgers: 0 }
        sum.hits += hits
        sum.cases += cases
        sum.hits2 += hits * hits
        sum.both += hits * cases
        sum.cases2 += cases * cases
        sum.ledgers += 1
        sums.set(name, sum)
      }
      here = new Map()
    },
    sums: () => Object.fromEntries(sums),
  }
}

/** Share (or mean) with two standard errors; null where nothing was counted. */
export function shareOf(sum) {
  if (sum === undefined || sum.cases === 0) return null
  const share = sum.hits / sum.cases
  const spread = sum.hits2 - 2 * share * sum.both + share * share * sum.cases2
  return { share, error: (2 * Math.sqrt(Math.max(0, spread))) / sum.cases, ...sum }
}

/** `95.1 ± 0.3 %` */
export function percent(sum, decimals = 1) {
  const one = shareOf(sum)
  if (one === null) return 'none'
  return `${(100 * one.share).toFixed(decimals)} ± ${(100 * one.error).toFixed(decimals)} %`
}

/** A mean that is no share, such as days. */
export function mean(sum, decimals = 1) {
  const one = shareOf(sum)
  return one === null ? 'none' : `${one.share.toFixed(decimals)} ± ${one.error.toFixed(decimals)}`
}

/** Adds the sums of other ledgers to those of some. */
export function addSums(sums, others) {
  for (const [name, other] of Object.entries(others)) {
    sums[name] ??= {}
    for (const [key, value] of Object.entries(other)) sums[name][key] = (sums[name][key] ?? 0) + value
  }
}
