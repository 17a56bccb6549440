import { locateExceptions, locateProblems } from '../check/locate-problems.js'
import type { ChangeChecked } from '../check/new-since.js'
import { isoOf } from '../measure/calendar.js'
import type { ProblemsPage } from '../output/problems.js'
import type { NotChecked, Problem } from '../types.js'
import type { Comparison } from './compare-with.js'
import type { OpenLedger } from './find-ledger.js'

export interface Chosen {
  readonly only?: readonly string[]
  readonly skip?: readonly string[]
}

/** What `check` shows: of what was found, the rules that were chosen, in the files that were asked for. */
export function checkPage(
  checked: ChangeChecked,
  ledger: OpenLedger,
  chosen: Chosen,
  comparison: Comparison | undefined,
): ProblemsPage {
  const { now } = checked
  const { asked, source } = ledger
  const isAsked = (file: string) => asked.length === 0 || asked.some((path) => isWithin(file, path))
  const isChosen = ({ rule }: Problem) =>
    (chosen.only === undefined || chosen.only.includes(rule)) && !(chosen.skip ?? []).includes(rule)
  const isShown = (problem: Problem) => isChosen(problem) && isAsked(problem.at.file)
  const shown = checked.brought.filter(isShown)
  return {
    asOf: isoOf(ledger.asOf),
    source: source.name,
    problems: locateProblems(shown, source, now.spots),
    excepted: locateExceptions(
      checked.excepted.filter(({ problem }) => isShown(problem)),
      source,
      now.spots,
    ),
    notChecked: now.notChecked.filter(
      ({ what }) =>
        !what.startsWith('sites/') ||
        asked.length === 0 ||
        asked.some((path) => isWithin(path, what) || isWithin(what, path)),
    ),
    records: now.records,
    sites: now.sites,
    later: now.later,
    hidden: checked.brought.filter(isChosen).length - shown.length,
    ...(comparison === undefined
      ? {}
      : {
          compared: {
            with: comparison.with,
            commits: comparison.commits,
            known: checked.known.filter(isShown).length,
            notCompared: checked.notCompared.filter((each) => leavesDoubt(each, shown)),
          },
        }),
  }
}

/**
 * Whether what was not checked before leaves open of a shown problem if it is new. A site has its part in what is found
 * in the records of the district too.
 */
function leavesDoubt({ what }: NotChecked, shown: readonly Problem[]): boolean {
  return shown.some(
    ({ site }) => !what.startsWith('sites/') || site === undefined || what === `sites/${site}`,
  )
}

function isWithin(path: string, folder: string): boolean {
  return path === folder || path.startsWith(`${folder}/`)
}
