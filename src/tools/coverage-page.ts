import { builtInRulebook, builtInRulebooks } from '../records/tables.js'
import type { Clause, CoveredBy } from './clauses.js'
import { clauseFiles } from './clauses.js'
import { cell, generatedNote } from './markdown.js'

/** src/data/rulebooks/README.md: the rulebooks of the program, and which clause is covered by what. `root` is the checkout. */
export function coveragePage(root: string): string {
  const files = [...clauseFiles(root).values()]
  const all = files.flatMap(({ clauses }) => Object.values(clauses))
  const covered = all.filter((row) => row['covered-by'] !== undefined).length
  return `# Rulebooks

${generatedNote}

The duties that come with the program, as data. Each entry holds from a day, so that what was done is judged by the law
of that day; names its source, and how sure we are of the text: \`read\` in a published copy, or \`from memory\`. None of
this is legal advice. The text of the law, local code and the label decide, and nothing here permits an application.

${builtInRulebooks.map(rulebookPart).join('\n')}
## Which clause is covered by what

${all.length} clauses and published figures; ${covered} are covered by a rule, ${all.length - covered} are not, each with the
reason.

${files.map(({ section, clauses }) => sectionPart(section, clauses)).join('\n')}`
}

function rulebookPart(id: string): string {
  const { title, covers, 'read-on': readOn, 'does-not-cover': leaves } = builtInRulebook(id as 'practice')
  return `## ${id}

${title}. Covers ${covers}. Read ${readOn}.

Does not cover:

${leaves.map((line) => `- ${line}`).join('\n')}
`
}

function sectionPart(section: string, clauses: Readonly<Record<string, Clause>>): string {
  const rows = Object.entries(clauses).map(
    ([id, row]) =>
      `| ${id} | ${cell(row.clause)} | ${cell(row.says)} | ${row.confidence} | ${cell(coverage(row))} |`,
  )
  return `### ${section}

| row | clause or source | says | how sure | covered by |
| --- | --- | --- | --- | --- |
${rows.join('\n')}
`
}

function coverage(row: Clause): string {
  return row['covered-by']?.map(covering).join('; ') ?? `not covered: ${row['not-covered']}`
}

function covering({ rule, duty, parameter }: CoveredBy): string {
  const by = duty ?? parameter
  return `[${rule}](../../rules/README.md#${rule})${by === undefined ? '' : ` (\`${by}\`)`}`
}
