import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { allRules } from '../rules/all.js'
import { baseAsOf } from '../rules/base-ledger.js'
import type { Rule } from '../rules/rule.js'
import { cell, generatedNote } from './markdown.js'

/** src/rules/README.md: every rule by family, from the rules themselves. `root` is the checkout. */
export function rulePages(root: string): string {
  const families = rulesByFamily(root)
  const parts = [introduction(families)]
  for (const [family, rules] of families) parts.push(`## ${family}\n`, ...rules.map(page))
  return parts.join('\n')
}

/**
 * The rules of each family, in the order in which they are listed. A rule's family is the folder in which its file
 * lies, since one rule is one file named after its id.
 */
export function rulesByFamily(root: string): Map<string, Rule[]> {
  const folder = join(root, 'src/rules')
  const familyOf = new Map<string, string>()
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    if (!entry.isDirectory()) continue
    for (const file of readdirSync(join(folder, entry.name))) {
      if (file.endsWith('.ts')) familyOf.set(file.slice(0, -'.ts'.length), entry.name)
    }
  }
  const families = new Map<string, Rule[]>()
  for (const rule of allRules) {
    const family = familyOf.get(rule.id)
    if (family === undefined)
      throw new Error(`The rule ${rule.id} has no file src/rules/<family>/${rule.id}.ts.`)
    families.set(family, [...(families.get(family) ?? []), rule])
  }
  return families
}

function introduction(families: ReadonlyMap<string, readonly Rule[]>): string {
  const rows = [...families].flatMap(([family, rules]) =>
    rules.map(({ id, level, title }) => `| [${id}](#${id}) | ${family} | ${level} | ${cell(title)} |`),
  )
  return `# Rules

${generatedNote}

What \`doorsweep check\` looks for. An error is broken or unlawful, a warning is a gap, a note is worth a look. Each
example is laid over one small ledger without problems (src/rules/base-ledger.ts) and checked as of ${baseAsOf}; the
rule speaks at the lines marked \`# expect\`. A test holds every example to that.

| rule | family | level | what is wrong |
| --- | --- | --- | --- |
${rows.join('\n')}
`
}

function page(rule: Rule): string {
  const facts = [
    ['level', rule.level],
    ['judged on', rule.judgedOn],
    ['rests on', `${rule.source.text} (${rule.source.kind})`],
    ['who can mend it', rule.actor],
    ...(rule.parameters && rule.parameters.length > 0
      ? [['values from rulebooks', rule.parameters.map((name) => `\`${name}\``).join(', ')]]
      : []),
  ]
  return `### ${rule.id}

${rule.title[0]?.toUpperCase()}${rule.title.slice(1)}. ${rule.why}

${facts.map(([name, value]) => `- ${name}: ${value}`).join('\n')}

What to do: ${rule.remedy}

\`\`\`yaml
${exampleText(rule.failing)}
\`\`\`
`
}

/** File headings become comments, so that the block is YAML to a reader and a highlighter. */
function exampleText(example: string): string {
  return example
    .trim()
    .split('\n')
    .map((line) => line.replace(/^=== /, '# '))
    .join('\n')
}
