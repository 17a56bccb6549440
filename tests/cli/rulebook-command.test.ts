import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { builtInRulebooks } from '../../src/records/tables.js'
import { doorsweep } from '../bad-input/run-main.js'
import { temporaryFolder } from '../files/temporary-folder.js'

const own = `title: Invented policy
jurisdiction: Example District
read-on: 2026-03-01
covers: who is told before a spray
does-not-cover: [state law, local code]
uses:
  bait: [{from: 2026-03-01, any: [{method: [in-a-station]}], source: Invented policy, kind: standard, confidence: read}]
notices:
  staff:
    - {from: 2026-03-01, to: staff, reach: all, lead: 24 hours, not-for: [bait], source: 'Invented policy, section 3', kind: standard, confidence: read}
`
const onDisk = (text: string, name = 'own.yaml') => {
  const root = temporaryFolder()
  writeFileSync(join(root, name), text)
  return root
}

describe('list', () => {
  it('names every rulebook of the program, and every value with the rules that read it', async () => {
    const { code, out } = await doorsweep(temporaryFolder(), 'rulebook', 'list')
    expect(code).toBe(0)
    for (const id of builtInRulebooks) expect(out).toMatch(new RegExp(`^ {2}${id} +\\S`, 'm'))
    expect(out).toMatch(/^ {2}sds\.at-hand +product-without-sds$/m)
  })
})

describe('show', () => {
  it('tells the entries of a rulebook of the program, with what it does not cover', async () => {
    const { code, out } = await doorsweep(temporaryFolder(), 'rulebook', 'show', 'new-jersey')
    expect(code).toBe(0)
    expect(out).toContain(
      'Does not cover: the text of a label and local code, which win over everything here',
    )
    expect(out).toMatch(/notices\/parents +from 2002-12-12 .*lead 72 hours.*N\.J\.S\.A\. 13:1F-25/)
    expect(out).toContain('This is no legal advice')
  })

  it('tells those of a file, in any format', async () => {
    const root = onDisk(own)
    const { out } = await doorsweep(root, 'rulebook', 'show', 'own.yaml', '--format', 'json')
    const { tables } = JSON.parse(out) as { tables: { rows: Record<string, unknown>[] }[] }
    expect(tables[0]?.rows.map(({ records: _, ...cells }) => cells)).toEqual([
      {
        entry: 'uses/bait',
        holds: 'from 2026-03-01',
        says: 'any method in-a-station',
        source: 'Invented policy',
        confidence: 'read',
      },
      {
        entry: 'notices/staff',
        holds: 'from 2026-03-01',
        says: 'to staff; reach all; lead 24 hours; not-for bait',
        source: 'Invented policy, section 3',
        confidence: 'read',
      },
    ])
  })

  it('says where to look for one that is none', async () => {
    expect(await doorsweep(temporaryFolder(), 'rulebook', 'show', 'oregon')).toMatchObject({
      code: 2,
      out: '',
      err: 'doorsweep: oregon cannot be read; name the file of a rulebook, or one that `doorsweep rulebook list` lists.\n',
    })
    const broken = await doorsweep(onDisk('title: [\n'), 'rulebook', 'show', 'own.yaml')
    expect(broken.code).toBe(2)
    expect(broken.err).toContain('`doorsweep rulebook check own.yaml` says why')
  })
})

describe('check', () => {
  it('says of a sound one what it holds', async () => {
    expect(await doorsweep(onDisk(own), 'rulebook', 'check', 'own.yaml')).toEqual({
      code: 0,
      out: 'own.yaml: nothing wrong with its 2 entries. Example District; covers who is told before a spray. Its sources were last read on 2026-03-01.\n',
      err: '',
    })
  })

  it.each<[string, string, RegExp]>([
    ['a shape', own.replace('lead: 24 hours', 'lead: 24 hrs'), /^own\.yaml:10:\d+: error: .*\[shape\]$/m],
    [
      'a class',
      own.replace('not-for: [bait]', 'not-for: [baits]'),
      /^own\.yaml:10:\d+: error: .*`bait`\?.*\[rulebook-class-undefined\]$/m,
    ],
    ['text that is no YAML', `${own}notices: [\n`, /^own\.yaml:\d+:\d+: error: /m],
    ['nothing at all', '', /^own\.yaml.*error: /m],
  ])('points at %s in the file as it was named', async (_, text, expected) => {
    const { code, out } = await doorsweep(onDisk(text), 'rulebook', 'check', 'own.yaml')
    expect(out).toMatch(expected)
    expect(code).toBe(1)
  })

  it('refuses what it cannot read', async () => {
    expect((await doorsweep(temporaryFolder(), 'rulebook', 'check', 'own.yaml')).code).toBe(2)
  })
})
