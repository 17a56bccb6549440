import type { ExportFormat } from '../writing/export/part.js'
import type { ColumnType, ExportColumn, ExportTable } from '../writing/export/table-words.js'
import { exportTables, tablesVersion } from '../writing/export/tables.js'
import { cell, generatedNote } from './markdown.js'

const typeWords: Readonly<Record<ColumnType, string>> = {
  text: 'text',
  day: 'date',
  whole: 'whole number',
  number: 'number',
  'yes-no': 'yes or no',
}

const duckTypes: Readonly<Record<ColumnType, string>> = {
  text: 'VARCHAR',
  day: 'DATE',
  whole: 'BIGINT',
  number: 'DOUBLE',
  'yes-no': 'BOOLEAN',
}

/** Every generated file of the export, by its path in the checkout. */
export function exportPages(): Map<string, string> {
  return new Map([
    ['schemas/export/README.md', exportPage()],
    ['src/data/queries/tables-csv.sql', viewsSql('csv')],
    ['src/data/queries/tables-parquet.sql', viewsSql('parquet')],
  ])
}

function exportPage(): string {
  return `# Tables of an export

${generatedNote}

\`doorsweep export --out DIR\` writes these tables, version ${tablesVersion}. Within a version columns may be added; none is
renamed, removed or given another meaning. Queries over them lie in [src/data/queries](../../src/data/queries/README.md).

- A file is \`<table>/district=<id>/year=<year>/part.csv\` or \`.parquet\`; tables without a day have no folder for the year.
  \`district\` (text) and \`year\` (whole number) stand in the names of the folders only, and are columns to any engine that
  knows them (hive partitions). A table without a row has one file without rows.
- Folders of many districts are put together by copying one over the other: what begins with \`_\` is no data, and is the
  same for all or named by district. \`_districts/<id>.json\` is written last: a district without it is not whole.
- The id of a district is stated with \`--district\`, or made from its state and name. State it: a name may change. A second
  export under the same id takes the place of the first, whatever days it tells of. All other ids are unique in their
  district, those of visits, applications, conditions and complaints within their site.
- An empty cell says what its column says here. It is never a zero: a zero is a value, what was not read is not.
- Text is safe to open in a spreadsheet, alike in both formats: control characters and direction marks are shown as
  \`\\u202e\`, and what would run as a formula stands after an apostrophe.
- There are no names of people: staff stand by their ids in the ledger, complaints by the role of who made them. Free text
  (what was said, found or noted), addresses and files that are no records stay out too. Names of the district, its sites,
  areas and products are in it, as their records write them. An id of a person may still tell who it is to whoever knows
  the district.
- A site with a record that cannot be used is left out as a whole and named in \`not_examined\`; compare \`sites_left_out\`
  before adding up districts.
${exportTables.map(tableText).join('')}`
}

function tableText(table: ExportTable): string {
  const filed = table.yearOf === undefined ? '' : ` Filed by the year of \`${table.yearOf}\`.`
  const key = ['district', ...table.key].map((name) => `\`${name}\``).join(', ')
  return `
## ${table.name}

${table.row}.${filed} One row for each ${key}.

| column | type | unit | meaning | empty |
| --- | --- | --- | --- | --- |
${table.columns.map(columnLine).join('\n')}
`
}

function columnLine({ name, type, unit, meaning, empty }: ExportColumn): string {
  return `| \`${name}\` | ${typeWords[type]} | ${unit ?? ''} | ${cell(meaning)} | ${empty === undefined ? 'never' : cell(empty)} |`
}

function viewsSql(format: ExportFormat): string {
  return `-- The tables of an export as views, for DuckDB started in the folder of the export. Generated from the tables of the
-- program; edit those, not this file.
${exportTables.map((table) => viewOf(table, format)).join('')}`
}

function viewOf(table: ExportTable, format: ExportFormat): string {
  const folders = table.yearOf === undefined ? '*' : '*/*'
  const hive = table.yearOf === undefined ? "{'district': VARCHAR}" : "{'district': VARCHAR, 'year': INTEGER}"
  const file = `'${table.name}/${folders}/part.${format}'`
  const columns = table.columns.map(({ name, type }) => `    '${name}': '${duckTypes[type]}'`).join(',\n')
  const reader =
    format === 'parquet'
      ? `read_parquet(${file}, hive_partitioning = true, hive_types = ${hive})`
      : `read_csv(${file}, hive_partitioning = true, hive_types = ${hive}, auto_detect = false, header = true,
  delim = ',', quote = '"', escape = '"', columns = {
${columns}
  })`
  return `
CREATE OR REPLACE VIEW ${table.name} AS SELECT * FROM ${reader};
`
}
