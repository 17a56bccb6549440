import type { Argument, Command, Option } from 'commander'

/** Of what a value is a name. */
export type NamesOf =
  | 'active-ingredient'
  | 'application'
  | 'area'
  | 'condition'
  | 'device'
  | 'feature-word'
  | 'language'
  | 'method'
  | 'person'
  | 'pest'
  | 'product'
  | 'record-kind'
  | 'rule'
  | 'rulebook'
  | 'site'
  | 'visit'

/** What can be offered for a value: names, what lies on the disk, or both. */
export interface ValueKind {
  readonly names?: NamesOf
  readonly paths?: 'files' | 'folders'
  /** Several in one word, commas between them. */
  readonly isList?: true
}

/**
 * What a value is, by what help calls it: `<site>`. Where that does not tell, by the option it is for, or by the
 * command and what its help calls it; these come first.
 */
export const valueKinds: Readonly<Record<string, ValueKind>> = {
  '--site': { names: 'site' },
  '--by': { names: 'person' },
  'identify <word>': { names: 'feature-word' },
  'new <kind>': { names: 'record-kind' },
  '<site>': { names: 'site' },
  '<person>': { names: 'person' },
  '<pest>': { names: 'pest' },
  '<area>': { names: 'area' },
  '<areas>': { names: 'area', isList: true },
  '<device>': { names: 'device' },
  '<condition>': { names: 'condition' },
  '<product>': { names: 'product' },
  '<product or file>': { names: 'product', paths: 'files' },
  '<ingredient>': { names: 'active-ingredient' },
  '<method>': { names: 'method' },
  '<visit>': { names: 'visit', paths: 'files' },
  '<application>': { names: 'application', paths: 'files' },
  '<record>': { names: 'visit', paths: 'files' },
  '<rule>': { names: 'rule' },
  '<rules>': { names: 'rule', isList: true },
  '<rulebook>': { names: 'rulebook', paths: 'files' },
  '<tag>': { names: 'language' },
  '<file>': { paths: 'files' },
  '<path>': { paths: 'files' },
  '<dir>': { paths: 'folders' },
}

/** Values of which there is no list: amounts, days, what people say. By what help calls them, or by the option. */
export const freeText: ReadonlySet<string> = new Set([
  '--table',
  'new <id>',
  '<amount>',
  '<animal>',
  '<date>',
  '<days>',
  '<density>',
  '<distance>',
  '<done>',
  '<hours>',
  '<key>',
  '<key=value>',
  '<length>',
  '<n>',
  '<name>',
  '<number>',
  '<order>',
  '<revision>',
  '<says>',
  '<size>',
  '<strength>',
  '<text>',
  '<time>',
  '<width>',
  '<word>',
  '<year>',
])

/** An option that takes a value, or an argument. */
export type Valued = Option | Argument

/** The names under which a value may stand in the tables, the most telling first. */
export function keysOfValue(command: Command, valued: Valued): readonly string[] {
  const name = `<${nameOfValue(valued)}>`
  const byPlace = [`${command.name()} ${name}`, name]
  return 'flags' in valued ? [valued.long ?? valued.flags, ...byPlace] : byPlace
}

/** What can be offered for a value that has no choices; nothing for free text. */
export function valueKindOf(command: Command, valued: Valued): ValueKind | undefined {
  const key = keysOfValue(command, valued).find((one) => Object.hasOwn(valueKinds, one) || freeText.has(one))
  return key === undefined ? undefined : valueKinds[key]
}

function nameOfValue(valued: Valued): string {
  if (!('flags' in valued)) return valued.name()
  return /[<[]([^\]>]+?)(?:\.\.\.)?[\]>]/.exec(valued.flags)?.[1] ?? ''
}
