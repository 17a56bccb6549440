import type { z } from 'zod'
import type { RecordKind } from '../records/kinds.js'
import { allRecordKinds, recordKinds } from '../records/kinds.js'
import { recordExamples } from '../records/record-examples.js'
import type { FieldRow } from './field-rows.js'
import { eventRows, fieldRows, isEvent } from './field-rows.js'
import { cell, generatedNote } from './markdown.js'

/** schemas/README.md: every kind of record, where it lies, an example, and every field. */
export function fieldReference(): string {
  return [introduction(), ...allRecordKinds.map(kindPage), eventPage()].join('\n')
}

const kindsTable = () =>
  allRecordKinds
    .map((kind) => `| [${kind}](#${kind}) | \`${recordKinds[kind].lies}\` | ${cell(purposeOf(kind))} |`)
    .join('\n')

function purposeOf(kind: RecordKind): string {
  return recordKinds[kind].schema.meta()?.description ?? ''
}

function introduction(): string {
  return `# Field reference

${generatedNote}

A ledger is a folder of YAML files, one record a file. Its place says what kind of record a file is, and for
something that happened, on which day and by whom: \`sites/ottermere/visits/2026-03-12-okafor.yaml\`. If one
person writes two of a kind on one day, a word follows: \`2026-03-12-okafor-evening.yaml\`.

- Ids of files are small letters, digits and hyphens. Names inside a record may have capitals. Both begin with a
  letter, and are never words like \`yes\`, \`no\`, \`on\` or \`null\`.
- \`yes\` and \`no\` are words, not \`true\` and \`false\`.
- Text that is all digits stands in quotes, so that no zero is lost: \`lot: "0017"\`.
- A quantity is one number with its unit: \`4.5 fl oz\`.
- Days are \`2026-03-12\`, times \`06:10\`, local to the district.
- Files are UTF-8, at most 1 MiB, without tabs, anchors, aliases and tags.

| kind | lies at | what it is |
| --- | --- | --- |
${kindsTable()}

## Let your editor complete the fields

Beside this page lies a JSON Schema of every kind. Any editor with YAML language support can complete fields and
mark mistakes with them. Either map paths to schemas in its settings, such as \`sites/*/visits/*.yaml\` to
\`schemas/visit.schema.json\`, or name the schema in the first line of a file:

\`\`\`yaml
# yaml-language-server: $schema=../../../schemas/visit.schema.json
purpose: routine
by: okafor
\`\`\`

The schemas accept exactly what \`doorsweep check\` accepts as the shape of one file. What one record must have to
do with another is for the check. A reader of YAML 1.1 takes unquoted days and times for something else; the
schemas are meant for YAML 1.2 with its core schema, which takes them for text.

What \`check\` writes for machines is described in [results](results/README.md).
`
}

function kindPage(kind: RecordKind): string {
  const schema: z.ZodType = recordKinds[kind].schema
  const { file, text } = recordExamples[kind]
  const more = isEvent(schema) ? '\nAnd the [fields of every event](#fields-of-every-event).\n' : ''
  return `## ${kind}

${purposeOf(kind)}. Lies at \`${recordKinds[kind].lies}\`; schema [${kind}.schema.json](${kind}.schema.json).

\`\`\`yaml
# ${file}${text}\`\`\`

${table(fieldRows(schema))}
${more}`
}

function eventPage(): string {
  return `## Fields of every event

What happened on a day is an event; each says who did it, and who typed it if that was someone else.

${table(eventRows())}
`
}

function table(rows: readonly FieldRow[]): string {
  const lines = rows.map(({ path, needed, holds, units, meaning, example }) => {
    const cells = [
      `\`${path}\``,
      needed ? 'yes' : '',
      holds,
      units.join(', '),
      meaning,
      example === '' ? '' : `\`${example}\``,
    ]
    return `| ${cells.map(cell).join(' | ')} |`
  })
  return [
    '| key | needed | holds | unit | meaning | example |',
    '| --- | --- | --- | --- | --- | --- |',
    ...lines,
  ].join('\n')
}
