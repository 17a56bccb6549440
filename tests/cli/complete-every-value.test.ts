import { readdirSync } from 'node:fs'
import type { Command } from 'commander'
import { describe, expect, it } from 'vitest'
import { namesOf } from '../../src/cli/complete/names.js'
import type { NamesOf, Valued } from '../../src/cli/complete/value-kinds.js'
import { freeText, keysOfValue, valueKinds } from '../../src/cli/complete/value-kinds.js'
import { wordFeatures } from '../../src/records/identification.js'
import { allRecordKinds } from '../../src/records/kinds.js'
import { builtInRulebooks, pestTable } from '../../src/records/tables.js'
import { allRules } from '../../src/rules/all.js'
import { exampleDistrict, wholeProgram } from './completed.js'

const within = (command: Command): readonly Command[] => [command, ...command.commands.flatMap(within)]

/** Everything in the program that takes a value. */
const all = within(wholeProgram()).flatMap((command) =>
  [
    ...command.options.filter(({ required, optional }) => required || optional),
    ...command.registeredArguments,
  ].map((valued: Valued) => ({ command, valued })),
)

const isKnown = (key: string) => Object.hasOwn(valueKinds, key) || freeText.has(key)

describe('every option and argument that takes a value', () => {
  it('is found', () => {
    expect(all.length).toBeGreaterThan(100)
  })

  it('has choices, or stands in a table: as names, as paths, or as free text', () => {
    const forgotten = all
      .filter(({ valued }) => !valued.argChoices)
      .filter(({ command, valued }) => !keysOfValue(command, valued).some(isKnown))
      .map(({ command, valued }) => `${command.name()}: ${'flags' in valued ? valued.flags : valued.name()}`)
    expect(forgotten).toEqual([])
  })

  it('and the tables hold nothing else', () => {
    const used = new Set(
      all
        .filter(({ valued }) => !valued.argChoices)
        .map(({ command, valued }) => keysOfValue(command, valued).find(isKnown)),
    )
    const listed = [...Object.keys(valueKinds), ...freeText]
    expect(new Set(listed).size).toBe(listed.length)
    // No command asks for a device yet; one that does is to have their names at once.
    expect(listed.filter((key) => !used.has(key))).toEqual(['<device>'])
  })
})

describe('names that come with the program, read without loading it', () => {
  const around = (option = '', given: Partial<Record<NamesOf, string>> = {}, root?: string) => ({
    root,
    cwd: '/',
    given: (what: NamesOf) => given[what],
    option,
    typed: '',
  })

  it('are those of the tables', () => {
    expect(namesOf('rule', around())).toEqual(allRules.map(({ id }) => id).sort())
    expect(namesOf('pest', around())).toEqual([...pestTable().keys()].sort())
    expect(namesOf('record-kind', around())).toEqual([...allRecordKinds].sort())
    expect(namesOf('rulebook', around())).toEqual([...builtInRulebooks].sort())
    for (const feature of wordFeatures) expect(namesOf('feature-word', around(feature))).not.toEqual([])
  })

  it('devices are those that were set on a visit of the site', () => {
    const names = namesOf('device', around('', { site: 'ottermere' }, exampleDistrict))
    expect(names).toEqual(expect.arrayContaining(['K1', 'K2', 'K3']))
    expect(names).not.toContain('kind')
  })
})

it('every command stands in a file of its name, so that it can be loaded alone', async () => {
  const files = readdirSync(new URL('../../src/cli/commands', import.meta.url))
  for (const command of wholeProgram().commands) {
    const name = command.name()
    expect(files).toContain(`${name}.ts`)
    const adder = `add${name.charAt(0).toUpperCase()}${name.slice(1)}`
    const file = new URL(`../../src/cli/commands/${name}.ts`, import.meta.url).href
    expect(Object.keys(await import(file))).toContain(adder)
  }
})
