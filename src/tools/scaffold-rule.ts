import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'

export type Scaffolded = { readonly written: readonly string[] } | { readonly refused: string }

/**
 * Starts a rule in the checkout at `root`: its file with blanks, and its line in the family's index. The test over
 * every rule fails until the blanks are filled in. Nothing is written when the id is taken or the family unknown.
 */
export function scaffoldRule(root: string, family: string, id: string): Scaffolded {
  if (!/^[a-z][a-z0-9]*(?:-[a-z0-9]+)*$/.test(id))
    return {
      refused: `${id} is no rule id: small letters and digits, joined by hyphens, such as trap-left-out.`,
    }
  const rules = join(root, 'src/rules')
  const families = readdirSync(rules, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && existsSync(join(rules, entry.name, 'index.ts')))
    .map((entry) => entry.name)
    .sort()
  if (!families.includes(family))
    return { refused: `There is no family ${family}; there are: ${families.join(', ')}.` }
  const taken = families.find((name) => existsSync(join(rules, name, `${id}.ts`)))
  if (taken !== undefined) return { refused: `src/rules/${taken}/${id}.ts is there already.` }
  const index = readFileSync(join(rules, family, 'index.ts'), 'utf8')
  const withRule = indexWith(index, id)
  if (withRule === undefined)
    return { refused: `src/rules/${family}/index.ts is not in the usual form; add the rule to it by hand.` }
  writeFileSync(join(rules, family, `${id}.ts`), ruleText(id))
  writeFileSync(join(rules, family, 'index.ts'), withRule)
  return { written: [`src/rules/${family}/${id}.ts`, `src/rules/${family}/index.ts`] }
}

function camelCase(id: string): string {
  return id.replace(/-([a-z0-9])/g, (_, letter: string) => letter.toUpperCase())
}

const widest = 110

/** The index with one more import, in its alphabetical place, and one more rule at the end of the list. */
function indexWith(index: string, id: string): string | undefined {
  const list = /^(export const [A-Za-z]+: readonly Rule\[\] = )\[([^\]]*)\]\n/m.exec(index)
  if (!list) return undefined
  const names = [...(list[2] ?? '').split(',').map((name) => name.trim()), camelCase(id)].filter(
    (name) => name !== '',
  )
  const oneLine = `${list[1]}[${names.join(', ')}]\n`
  const lines =
    oneLine.length <= widest ? oneLine : `${list[1]}[\n${names.map((name) => `  ${name},\n`).join('')}]\n`
  const listed = index.slice(0, list.index) + lines + index.slice(list.index + list[0].length)
  const imports = listed.split('\n').filter((line) => line.startsWith('import '))
  const added = `import { ${camelCase(id)} } from './${id}.js'`
  const before =
    imports.findLast((line) => isOfFamily(line) && pathOf(line) < pathOf(added)) ??
    imports.findLast((line) => !isOfFamily(line))
  return before === undefined ? `${added}\n${listed}` : listed.replace(`${before}\n`, `${before}\n${added}\n`)
}

const pathOf = (line: string) => / from '(.*)'/.exec(line)?.[1] ?? ''
const isOfFamily = (line: string) => pathOf(line).startsWith('./')

function ruleText(id: string): string {
  return `import { commonPractice, siteRule } from '../rule.js'

export const ${camelCase(id)} = siteRule<Record<string, never>>({
  id: '${id}',
  // What is wrong, in a few words, without a particular case and without a full stop.
  title: '',
  level: 'warning',
  // Which day's facts and duties judge it.
  judgedOn: '',
  // One sentence: why it matters.
  why: '',
  // What to do about it; a line that can be pasted where there is one.
  remedy: '',
  source: commonPractice,
  actor: 'technician',
  // True when something that should be there is not.
  gap: false,
  // One sentence from the arguments: what the record shows or does not show. It accuses no one and permits nothing.
  says: () => '',
  // Look through the view of one site and yield a finding for each place: {args, at, from, until?}.
  check: () => [],
  // The nearest ledger in which it speaks, over src/rules/base-ledger.ts; mark the guilty line.
  failing: \`
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback # expect: ${id}
by: okafor
\`,
  // The same ledger but for the one fact.
  passing: \`
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback
by: okafor
\`,
})
`
}
