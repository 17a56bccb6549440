import type { Command } from 'commander'
import { Option } from 'commander'
import type { ImportKind } from '../../writing/import/mapping.js'
import type { Runner } from '../runner.js'

export interface ImportFlags {
  readonly map?: string
  readonly site?: string
  readonly by?: string
  readonly enteredBy?: string
  readonly word?: string
  readonly write?: boolean
  readonly format?: 'text' | 'json'
  readonly ledger?: string
}

export function addImport(program: Command, run: Runner): void {
  const all = program
    .command('import')
    .summary('take over counts, complaints or repairs from a spreadsheet or a scanner')
    .description(
      'Turns the rows of a CSV file into records. A mapping says what its columns mean; nothing is guessed. Shows what it would write; with --write it writes all of it or nothing. The same file once more changes nothing.',
    )
  for (const kind of Object.keys(kinds) as ImportKind[]) {
    const { summary, after } = kinds[kind]
    all
      .command(kind)
      .summary(summary)
      .description(`${summary.charAt(0).toUpperCase()}${summary.slice(1)}, from a CSV file.`)
      .argument('<file>', 'CSV file with a header')
      .option('--map <file>', 'the mapping, see below; without it columns bear the names of the fields')
      .option('--site <site>', 'the site of every row')
      .option('--by <person>', 'who did or noted all of it')
      .option('--entered-by <person>', 'who typed the file, when that was someone else')
      .option('--word <word>', 'tells these records from others of the same site, day and person')
      .option('--write', 'write the records, if nothing is wrong with any')
      .addOption(new Option('--format <format>', 'how to print').choices(['text', 'json']).default('text'))
      .option('--ledger <dir>', 'the ledger, if not the one around you')
      .addHelpText('after', `\n${after}\n${ofEveryFile}`)
      .action(
        run(async (here, [file, flags]) => {
          const { importFile } = await import('./import-file.js')
          return importFile(here, kind, String(file), flags as ImportFlags)
        }),
      )
  }
}

const ofEveryFile = `Every field takes a column (\`device: Trap\`), or a column and what its words are in
the ledger (\`names\`), or one value for all rows (\`always\`). Besides:

  date: {column: Date, format: MM/DD/YYYY}    # without a format: 2026-03-12 only
  delimiter: ";"                              # , ; tab |
  encoding: latin-1                           # utf-8, latin-1, windows-1252
  decimal: ","                                # only where numbers have decimals

Also entered-by (who typed it) and on-paper (the day of the paper page).

A date that could be two days is refused. A format knows YYYY, YY (20YY), MM, M,
DD, D, HH, mm and ss. Text that a spreadsheet would run as a formula stays text;
a formula where a number belongs is refused. At most 50 MB and 200,000 rows.

Exit codes: 0 right (and written, with --write), 1 something is wrong and nothing
was written, 2 called wrongly, or a file could not be read.`

const kinds: Readonly<Record<ImportKind, { readonly summary: string; readonly after: string }>> = {
  counts: {
    summary: 'counts on devices become visits, one for each site, day and person',
    after: `A mapping, such as counts.map.yaml:

  date: {column: Date, format: MM/DD/YYYY}
  site: {column: School, names: {Ottermere Elementary: ottermere}}
  by: {always: okafor}
  device: {column: Trap, names: {"12": K12}}
  pest: {column: Pest, names: {GC: german-cockroach}}
  count: Number
  renewed: {column: New board, names: {x: yes}}
  unusable: {column: State, names: {lost: missing}}    # missing damaged wet full
  note: Remarks

A column for each pest instead of pest and count:

  pests: {german-cockroach: GC, house-mouse: {adults: Mice, juveniles: Young}}

Other fields, each as in a reading: stage, reset, no-access (why), after-flush,
sprung (or numbers of a set: sprung-empty, sprung-other-animal), bait-taken,
bait-added, product, lot, tracks, active, block, lamp, other, other-count. Bait:

  bait-added: Amount                    # 1 block, 0.5 g; 0 where none was put in
  bait-unit: {always: block}            # where the cells have the number alone
  product: {column: Bait, names: {BX: block-x}}

Nothing there is a count of 0, \`none\` as the pest, or a column for it:

  none: {column: Nil, names: {x: yes}}

And of the whole file:

  purpose: trap-check        # or routine, callback, follow-up
  empty-count: zero          # or not looked at; else an empty cell is refused
  counts: new since the last look

A count is what is on the device now, as in every record. Where the file says
what was new, say so: then what stood on the device is added, as the ledger has
it; where it does not have it, the row is refused, and no renewal is invented. A
pest that a device is for and that no row names was not there.

Examples:
  doorsweep import counts counts.csv --map counts.map.yaml
  doorsweep import counts counts.csv --map counts.map.yaml --write
`,
  },
  complaints: {
    summary: 'a complaint log becomes complaints, one for each row',
    after: `A mapping, such as complaints.map.yaml:

  date: {column: Date, format: MM/DD/YYYY}
  site: {always: ottermere}
  by: {column: Noted by, names: {T. Lind: lind}}
  from: {column: Who, names: {Teacher: staff}}    # staff parent pupil visitor neighbor
  at: Time
  area: {column: Room, names: {"12": room-12}}
  says: Complaint

Other fields: pest, other, withdrawn, notes, and word: a column that tells two of
one site, day and person apart; without it the second is called -2, the third -3.
Never a name of a pupil or a parent: take that column out, and read the texts.

Example:
  doorsweep import complaints log.csv --map complaints.map.yaml --write
`,
  },
  repairs: {
    summary: 'a list of work orders becomes repairs, one for each row',
    after: `A mapping, such as repairs.map.yaml:

  date: {column: Finished, format: MM/DD/YYYY}
  site: {column: Building, names: {OTT: ottermere}}
  by: {always: ruiz}
  order: Work order
  done: Work
  owner: {always: maintenance}
  cost: Cost                # dollars

Other fields: mends (short names of conditions), area, opening (the gap that was
closed there, with its size), notes, and word: a column that tells two of one
site, day and person apart; without it the second is -2.

Example:
  doorsweep import repairs orders.csv --map repairs.map.yaml --write
`,
  },
}
