import { fileRule, ledgerFormat } from '../rule.js'

/** Text that is no YAML, or YAML with features a record never needs and that hide what it says. */
export const notPlainYaml = fileRule<{ fault: string; detail: string }>({
  id: 'not-plain-yaml',
  title: 'a record is not plain YAML',
  level: 'error',
  judgedOn: 'whenever the ledger is read',
  why: 'Records are read by people and programs for years; anchors, tags and hidden characters make them say something other than what they show.',
  remedy: 'Write plain keys and values, indented with spaces.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ fault, detail }) => sentences[fault]?.(detail) ?? `YAML cannot read this: ${detail}.`,
  judge(fault) {
    if (fault.kind !== 'text' || !(fault.fault.fault in sentences)) return undefined
    const { fault: kind, detail, span } = fault.fault
    return {
      args: { fault: kind, detail },
      at: { file: fault.file, path: [], span },
      identity: [kind, detail],
    }
  },
  failing: `
=== people/reyes.yaml
name: &who Sol Reyes # expect: not-plain-yaml
roles: [clerk]
`,
  passing: `
=== people/reyes.yaml
name: "Sol & Reyes"
roles: [clerk]
`,
})

const sentences: Record<string, (detail: string) => string> = {
  'not-yaml': (detail) => `YAML cannot read this: ${detail.replace(/\.$/, '')}.`,
  tab: () => 'A tab indents this line; YAML wants spaces.',
  alias: (detail) =>
    `\`${detail}\` is a YAML anchor or alias; write the value out, or put text that begins with & or * in quotes.`,
  tag: () => 'This is a YAML tag; put text that begins with ! in quotes.',
  'several-documents': () => 'A second YAML document begins here; a file holds one record.',
  'too-deep': () => 'This nests deeper than any record does.',
  'bad-key': (detail) => `\`${detail}\` cannot be a key.`,
  'control-character': (detail) =>
    `The character ${detail} is here; it is not visible, or turns text around.`,
  'not-a-map': (detail) => `The file holds ${detail}; a record is keys and values.`,
}
