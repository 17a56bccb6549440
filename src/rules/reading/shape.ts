import type { Args } from '../../types.js'
import { fileRule, ledgerFormat } from '../rule.js'

/** A record that does not have the shape of its kind. */
export const shape = fileRule<Args>({
  id: 'shape',
  title: 'a record does not have the shape of its kind',
  level: 'error',
  judgedOn: 'whenever the ledger is read',
  why: 'Nothing that follows from the record can be judged until it says what its kind must say.',
  remedy:
    'Write it as the field reference (schemas/README.md) shows; an editor with YAML support completes it.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: (args) => sentences[String(args.fault)]?.(args) ?? `Not what belongs here: ${args.expected}.`,
  judge(fault) {
    if (fault.kind !== 'shape' || !(fault.fault.fault in sentences)) return undefined
    const { fault: kind, path, onKey, args } = fault.fault
    return {
      args: { fault: kind, ...args },
      at: { file: fault.file, path, onKey },
      identity: kind === 'missing-key' ? [String(args.key)] : [],
    }
  },
  failing: `
=== people/reyes.yaml
name: Sol Reyes
roles: clerk # expect: shape
`,
  passing: `
=== people/reyes.yaml
name: Sol Reyes
roles: [clerk]
`,
})

const shown = (text: unknown) => (text === undefined || text === '' ? '' : `, such as \`${text}\``)
const list = (values: unknown) =>
  Array.isArray(values) ? values.map((value) => `\`${value}\``).join(', ') : String(values)
const lower = (text: unknown) =>
  String(text ?? '').replace(/^[A-Z](?=[a-z ])/, (letter) => letter.toLowerCase())

const sentences: Record<string, (args: Args) => string> = {
  'missing-key': ({ key, expected }) => `\`${key}\` is missing${expected ? `: ${lower(expected)}` : ''}.`,
  'wrong-type': ({ got, expected, example, quoted }) =>
    `Here is ${got}; what belongs here: ${lower(expected) || 'something else'}${shown(example)}.${quoted === undefined ? '' : ` If ${quoted} is meant, write it in quotes.`}`,
  'not-one-of': ({ value, allowed, meant }) =>
    `\`${value}\` is not one of ${list(allowed)}${meant === undefined ? '' : `; did you mean \`${meant}\`?`}${meant === undefined ? '.' : ''}`,
  'bad-text': ({ value, expected, example }) =>
    `\`${value}\` does not read as: ${lower(expected) || 'what belongs here'}${shown(example)}.`,
  'bad-key': ({ key, example }) =>
    `\`${key}\` cannot be a name here; names are letters, digits and hyphens, begin with a letter, and are never words like yes, no or null${shown(example)}.`,
  'out-of-range': ({ value, limit }) => `${value} is out of range: ${limit}.`,
  'too-few': ({ least }) => `At least ${least} belong here.`,
}
