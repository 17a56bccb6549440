import type { Rule } from '../rules/rule.js'
import type { Painter } from './painter.js'

/** The page of one rule for a terminal; everything on it comes from the rule's own file. */
export function rulePageText(rule: Rule): string {
  const lines = [
    `${rule.id} (${rule.level}): ${rule.title}`,
    '',
    `Why:    ${rule.why}`,
    `Do:     ${rule.remedy}`,
    `Judged: ${rule.judgedOn}`,
    `Rests on: ${rule.source.text}`,
  ]
  if (rule.parameters && rule.parameters.length > 0)
    lines.push(`Values from the rulebooks in force: ${rule.parameters.join(', ')}`)
  lines.push(
    '',
    'A ledger in which it speaks, at the marked lines:',
    '',
    indented(rule.failing),
    '',
    'And one in which it does not:',
    '',
    indented(rule.passing || '=== (the same without those lines)'),
    '',
  )
  return lines.join('\n')
}

function indented(text: string): string {
  return text
    .trim()
    .split('\n')
    .map((line) => `    ${line.replace(/^=== /, '# ')}`)
    .join('\n')
}

/** One line a rule, in the order of the pages. */
export function ruleListText(rules: readonly Rule[], paint: Painter): string {
  const width = Math.max(...rules.map((rule) => rule.id.length))
  return rules
    .map((rule) => `${rule.id.padEnd(width)}  ${paint[rule.level](rule.level.padEnd(7))}  ${rule.title}\n`)
    .join('')
}
