import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Command } from 'commander'
import { describe, expect, it } from 'vitest'
import { flowKeys } from '../../src/cli/complete/flow-keys.js'
import type { NamesOf, Valued } from '../../src/cli/complete/value-kinds.js'
import { valueKindOf } from '../../src/cli/complete/value-kinds.js'
import { completed, exampleDistrict, wholeProgram } from './completed.js'
import { ledgerFolder, newFolder } from './run-doorsweep.js'

/** A name of the example district for each kind, as its folders and files have it. */
const known: Readonly<Partial<Record<NamesOf, string>>> = {
  'active-ingredient': 'inventamide',
  application: 'ottermere/',
  area: 'kitchen',
  condition: 'sink-drip',
  device: 'K1',
  language: 'es',
  method: 'crack-and-crevice',
  person: 'okafor',
  pest: 'house-mouse',
  product: 'roach-gel',
  'record-kind': 'visit',
  rule: 'count-fell',
  rulebook: 'us-federal',
  site: 'ottermere',
  visit: 'ottermere/',
}

interface Place {
  readonly words: readonly string[]
  readonly names: NamesOf
}

const commandsIn = (command: Command): readonly Command[] => [
  command,
  ...command.commands.flatMap(commandsIn),
]

function pathOf(command: Command): string[] {
  return command.parent ? [...pathOf(command.parent), command.name()] : []
}

/** What has to be said first for names of a site, or of a product, to be known. */
function before(command: Command, names: NamesOf, valued: Valued): string[] {
  const has = (long: string) => command.options.some((option) => option.long === long && option !== valued)
  if (['area', 'condition', 'device'].includes(names) && has('--site')) return ['--site', 'ottermere']
  return names === 'active-ingredient' && has('--product') ? ['--product', 'roach-gel'] : []
}

/** Arguments that come first; a site where one is asked for. */
function argumentsOf(command: Command, upTo: number): string[] {
  return command.registeredArguments
    .slice(0, upTo)
    .map((argument) => (valueKindOf(command, argument)?.names === 'site' ? 'ottermere' : 'x'))
}

/** Every place of the program where a name is typed, with the words that lead there. */
const places: readonly Place[] = commandsIn(wholeProgram()).flatMap((command) => {
  const namesOf = (valued: Valued) => (valued.argChoices ? undefined : valueKindOf(command, valued)?.names)
  const options = command.options.flatMap((option): Place[] => {
    const names = namesOf(option)
    if (names === undefined || names === 'feature-word') return []
    const first = argumentsOf(command, command.registeredArguments.length)
    return [
      { names, words: [...pathOf(command), ...first, ...before(command, names, option), option.long ?? ''] },
    ]
  })
  const given = command.registeredArguments.flatMap((argument, at): Place[] => {
    const names = namesOf(argument)
    return names === undefined ? [] : [{ names, words: [...pathOf(command), ...argumentsOf(command, at)] }]
  })
  return [...options, ...given]
})

describe('names complete wherever one is typed', () => {
  it('in every command that takes one', () => {
    const found = places.map(({ words }) => words.join(' '))
    for (const place of [
      'clipboard',
      'visit',
      'labels',
      'layout runs',
      'clipboard ottermere --area',
      'log complaint x --site ottermere --area',
      'log repair x --site ottermere --mends',
      'log sighting --pest',
      'import counts x --site',
      'import complaints x --by',
      'import repairs x --entered-by',
      'report trend --site',
      'report trend --pest',
      'precheck x --product',
      'mix --product roach-gel --active',
      'due --site',
    ])
      expect(
        found.some((words) => words === place || words === place.replace(' x', '')),
        place,
      ).toBe(true)
  })

  it.each(places.map(({ words, names }) => [words.join(' '), names, words] as const))(
    '%s <%s>',
    async (_, names, words) => {
      const name = known[names]
      if (name === undefined) throw new Error(`no ${names} of the example district is named above`)
      expect(await completed([...words, ''])).toContain(name)
      expect(await completed([...words, name.slice(0, 3)])).toContain(name)
      // Joined to its option by a sign, it is completed just so.
      const last = words.at(-1) ?? ''
      if (last.startsWith('--'))
        expect(await completed([...words.slice(0, -1), `${last}=${name.slice(0, 3)}`])).toContain(
          `${last}=${name}`,
        )
    },
  )

  it('an option that bears the name of such a thing takes its names', () => {
    const kinds = new Map<string, NamesOf>([
      ['--site', 'site'],
      ['--area', 'area'],
      ['--device', 'device'],
      ['--pest', 'pest'],
      ['--product', 'product'],
      ['--by', 'person'],
      ['--entered-by', 'person'],
    ])
    const others = commandsIn(wholeProgram()).flatMap((command) =>
      command.options.flatMap((option) => {
        const kind = kinds.get(option.long ?? '')
        return kind === undefined || valueKindOf(command, option)?.names === kind
          ? []
          : [`${command.name()} ${option.flags}`]
      }),
    )
    // How large what is treated is.
    expect(others).toEqual(['mix --area <size>'])
  })
})

describe('areas of the only site there is', () => {
  it('need no --site; those of one of several do', async () => {
    const folder = ledgerFolder()
    expect(await completed(['precheck', '--area', ''], folder)).toEqual(['kitchen', 'room-1'])
    mkdirSync(join(folder, 'sites/elm'))
    expect(await completed(['precheck', '--area', ''], folder)).toEqual([])
    expect(await completed(['precheck', '--area', ''], exampleDistrict)).toEqual([])
  })
})

describe('maps in braces', () => {
  it.each([
    ['{kitchen: {kind: kitchen}, dock: {kind: loading-dock}}', ['kitchen', 'dock']],
    ['{kitchen: {kind: kitchen, outline: [[0, 0], [1, 1]]},\n  dock: {}}\nname: x', ['kitchen', 'dock']],
    ['{"room-1": {a: b}, \'room-2\': {c: "}"}, x: "a, b: c"}', ['room-1', 'room-2', 'x']],
    ['{a: 06:10 to 06:50, b: {}} # c: d', ['a', 'b']],
    ['{a: b, # c: d\n e: f}', ['a', 'e']],
    ['{}', []],
    ['{a: [', ['a']],
    ['{a: "never closed, b: c', ['a']],
    ['', []],
  ])('%j', (text, keys) => {
    expect(flowKeys(text)).toEqual(keys)
  })

  it('are read like those of one key a line', async () => {
    const folder = newFolder()
    mkdirSync(join(folder, 'sites/elm/visits'), { recursive: true })
    writeFileSync(join(folder, 'district.yaml'), 'format: 1\n')
    writeFileSync(
      join(folder, 'sites/elm/site.yaml'),
      'name: Elm\nareas: {kitchen: {kind: kitchen}, dock: {kind: dock}} # two\nhours: {a: b}\n',
    )
    writeFileSync(
      join(folder, 'sites/elm/visits/2026-03-12-okafor.yaml'),
      'by: okafor\nconditions: {drip: {new: a drip, area: kitchen},\n  gap: {new: a gap}}\n',
    )
    expect(await completed(['clipboard', 'elm', '--area', ''], folder)).toEqual(['dock', 'kitchen'])
    expect(await completed(['log', 'repair', 'x', '--site', 'elm', '--mends', ''], folder)).toEqual([
      'drip',
      'gap',
    ])
  })
})
