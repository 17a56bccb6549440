/**
 * Laid over the base: its district under a rulebook of its own, with the sections given, which is invented. `district` are
 * more lines of district.yaml; `begins` is the first day of its records.
 */
export function underOwnRulebook(
  sections: string,
  { district = '', begins = '2026-03-01' }: { readonly district?: string; readonly begins?: string } = {},
): string {
  return `
=== district.yaml
format: 1
name: Example District
state: OR
address: 1 Example Square
time-zone: America/Los_Angeles
records-begin: ${begins}
coordinator: [{from: ${begins}, who: marsh}]
rulebooks:
  - {from: ${begins}, rulebook: practice}
  - {from: ${begins}, rulebook: us-federal}
  - {from: ${begins}, rulebook: own}
calendar: [{from: 2025-09-02, until: 2026-06-12}]
${district.trim()}
=== rulebooks/own.yaml
title: Invented rules of the example district
jurisdiction: Example State
state: OR
read-on: 2026-03-01
covers: what this example shows
does-not-cover: [everything else]
${sections.trim()}
`
}
