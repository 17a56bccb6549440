import { broughtBy } from '../../check/brought-by.js'
import type { LocatedProblem } from '../../check/locate-problems.js'
import type { Source } from '../../files/source.js'
import type { ReadOptions } from '../../ledger/read-ledger.js'
import { ruleById } from '../../rules/all.js'
import { countFell } from '../../rules/devices/count-fell.js'
import type { Problem } from '../../types.js'
import type { FreshRecord } from './compared.js'
import { originKey, originOf } from './planned.js'
import type { Sheet } from './sheet.js'
import { troubleAt } from './sheet.js'
import type { Trouble } from './trouble.js'

/** What `check` would say of the ledger with the new records, and did not say without. */
export interface CheckedRecords {
  /** What makes them wrong; then nothing may be written. */
  readonly troubles: readonly Trouble[]
  /** Files of the records that are wrong. */
  readonly wrong: ReadonlySet<string>
  /** What they bring besides, such as a count over a threshold or a thing now due: told, and hinders nothing. */
  readonly brings: readonly LocatedProblem[]
}

/**
 * Checks all new records of one site at once, before any of them is written. `isWhole`: no row of the file was left out;
 * else a count may fall only because the row before it is missing.
 */
export function checkedAt(
  sheet: Sheet,
  source: Source,
  site: string,
  records: readonly FreshRecord[],
  options: ReadOptions,
  isWhole: boolean,
): CheckedRecords {
  const byFile = new Map(records.map((record) => [record.file, record]))
  const files = new Map(records.map(({ file, text }) => [file, Buffer.from(text, 'utf8')]))
  const { problems: all, isJudged } = broughtBy(source, site, files, options)
  const problems = isWhole ? all : all.filter(({ problem }) => problem.rule !== countFell.id)
  const hindering = problems.filter(hinders)
  const wrong = new Set(hindering.map(({ problem }) => problem.at.file))
  const troubles = hindering.map((located) => troubleOf(sheet, byFile, located))
  const brings = problems.filter((located) => !hinders(located))
  if (isJudged) return { troubles, wrong, brings }
  // A record that cannot be used hides what is wrong with the others: they are looked at without it.
  const others = records.filter(({ file }) => !wrong.has(file))
  if (others.length > 0 && others.length < records.length) {
    const again = checkedAt(sheet, source, site, others, options, false)
    return {
      troubles: [...troubles, ...again.troubles],
      wrong: new Set([...wrong, ...again.wrong]),
      brings: [],
    }
  }
  if (troubles.length > 0) return { troubles, wrong, brings: [] }
  const [first] = records
  if (!first) return { troubles, wrong, brings }
  const says = `With these records sites/${site} could no longer be judged.`
  return { troubles: [troubleAt(sheet, originOf(first, []), says)], wrong: new Set(files.keys()), brings: [] }
}

/** A count that falls may be a miscount in one record; in a whole file it says that its counts mean something else. */
function hinders({ problem }: LocatedProblem): boolean {
  return problem.level === 'error' || problem.rule === countFell.id
}

function troubleOf(
  sheet: Sheet,
  records: ReadonlyMap<string, FreshRecord>,
  { problem, location }: LocatedProblem,
): Trouble {
  const says = `${ruleById(problem.rule)?.says(problem.args) ?? problem.rule} [${problem.rule}]`
  const record = records.get(problem.at.file)
  const remedy =
    problem.rule === countFell.id ? remedyOfFall(problem, record) : ruleById(problem.rule)?.remedy
  return record
    ? troubleAt(sheet, originOf(record, problem.at.path), says, undefined, remedy)
    : {
        file: problem.at.file,
        line: location?.line ?? 1,
        column: location?.column ?? 1,
        says: `With the records of ${sheet.file}: ${says}`,
        ...(remedy === undefined ? {} : { remedy }),
      }
}

function remedyOfFall({ args }: Problem, record: FreshRecord | undefined): string {
  const path = ['readings', String(args.device), String(args.pest)]
  return record === undefined || record.origins.has(originKey(path))
    ? 'If every look empties or renews the device, map `renewed`; if the file counts only what was new, say `counts: new since the last look`.'
    : 'No row of that day names the pest, which says that none was there. If it still stood there, add a row with its count; if the device was renewed before, say so in that record.'
}
