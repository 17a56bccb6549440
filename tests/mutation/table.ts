import { baseLedgers } from './base-ledgers.js'
import type { FaultKind } from './fault.js'
import type { Trial } from './measure-faults.js'

const start = '<!-- measured -->'

/** The page with the table of what was measured in place of the one it has. */
export function withTable(
  page: string,
  date: string,
  kinds: readonly FaultKind[],
  measured: ReadonlyMap<string, readonly Trial[]>,
): string {
  const rows = kinds.map((kind) => rowOf(kind, measured.get(kind.name) ?? []))
  const sum = (at: number) => rows.reduce((total, row) => total + Number(row[at]), 0)
  const seeds = baseLedgers.map(
    ({ sites, years, seed, until }) => `${seed} (${sites} × ${years} to ${until})`,
  )
  const table = [
    ['kind of fault', 'rule', 'ledgers', 'detected', 'missed', 'false alarms'],
    ...rows,
    [`**${kinds.length} kinds**`, '', ...[2, 3, 4, 5].map((at) => `**${sum(at)}**`)],
  ]
  return [
    page.slice(0, page.indexOf(start) + start.length),
    '',
    `Measured ${date}. Seeds, with sites × years and last day: ${seeds.join(', ')}.`,
    '',
    ...aligned(table),
    '',
    'Told beside the fault, and no consequence of it:',
    '',
    ...kinds.flatMap(({ name, tolerated }) =>
      Object.entries(tolerated ?? {}).map(([rule, why]) => `- ${name}: \`${rule}\`, ${why}.`),
    ),
    '',
  ].join('\n')
}

/** A table whose columns line up; all but the first two hold numbers. */
function aligned(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] ?? []).map((_, at) => Math.max(...rows.map((row) => row[at]?.length ?? 0)))
  const line = (row: readonly string[]) =>
    `| ${row.map((cell, at) => (at < 2 ? cell.padEnd(widths[at] ?? 0) : cell.padStart(widths[at] ?? 0))).join(' | ')} |`
  const rule = widths.map((width, at) => (at < 2 ? '-'.repeat(width) : `${'-'.repeat(width - 1)}:`))
  const [head = [], ...body] = rows
  return [line(head), line(rule), ...body.map(line)]
}

/** Detected and missed count ledgers; false alarms count ledgers in which anything else was told. */
function rowOf(kind: FaultKind, trials: readonly Trial[]): string[] {
  const missed = trials.filter((trial) => trial.missed.length > 0).length
  const alarmed = trials.filter((trial) => trial.falseAlarms.length + trial.tolerated.length > 0).length
  return [
    kind.name,
    `\`${kind.expect}\``,
    ...[trials.length, trials.length - missed, missed, alarmed].map(String),
  ]
}
