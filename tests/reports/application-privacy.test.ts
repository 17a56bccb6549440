import { describe, expect, it } from 'vitest'
import { overlaid } from '../../src/files/overlaid.js'
import { reportCsv } from '../../src/output/report-csv.js'
import { reportMarkdown } from '../../src/output/report-markdown.js'
import { bare, district, everythingOf, oak, oakPage, pageOf, reportOf } from './application-pages.js'

describe('nothing of a page names a person, a device or an exact placement', () => {
  const applications = district
    .list()
    .map(({ path }) => path)
    .filter((path) => /^sites\/[^/]+\/applications\//.test(path))

  it('finds the eight of the example district', () => {
    expect(applications).toHaveLength(8)
  })

  it.each(applications)('%s', (file) => {
    const [, site = '', , name = ''] = file.split('/')
    const id = `${site}/${name.replace('.yaml', '')}`
    const everything = everythingOf(reportOf(district, id), true)
    // Nor does anything read as leave to do something.
    expect(everything).not.toMatch(/\b(?:safe|safely|harmless|allowed|permitted|may be used)\b/i)
    const text = (path: string) => {
      const read = district.read(path)
      return 'bytes' in read ? Buffer.from(read.bytes).toString() : ''
    }
    const people = district.list().filter(({ path }) => path.startsWith('people/'))
    expect(people).toHaveLength(10)
    for (const { path } of people) {
      const [, full = ''] = /^name: (.*)$/m.exec(text(path)) ?? []
      for (const part of [full, ...full.split(' ')])
        expect(everything).not.toMatch(new RegExp(`\\b${part}\\b`))
      // Nor the id that file names are made of.
      expect(everything).not.toContain(`-${path.slice('people/'.length, -'.yaml'.length)}`)
    }
    const placements = [...text(file).matchAll(/where: (?:"([^"]*)"|([^,}\n]*))/g)].map(
      ([, quoted, bare]) => quoted ?? bare ?? '',
    )
    expect(placements.length).toBeGreaterThan(0)
    for (const placement of placements) expect(everything).not.toContain(placement)
    const devices = new Set<string>()
    for (const { path } of district.list())
      if (path.startsWith(`sites/${site}/visits/`))
        for (const [, device = ''] of text(path).matchAll(/^ {2}([A-Z]{1,3}\d+):/gm)) devices.add(device)
    expect(devices.size).toBeGreaterThan(3)
    for (const device of devices) expect(everything).not.toMatch(new RegExp(`\\b${device}\\b`))
  })

  it('may have a hyphen in a name', () => {
    const path = 'people/okafor.yaml'
    const read = district.read(path)
    const text = 'bytes' in read ? Buffer.from(read.bytes).toString() : ''
    const hyphened = overlaid(
      district,
      new Map([[path, Buffer.from(text.replace('Ada Okafor', 'Ada-May Okafor-Lane'))]]),
    )
    const everything = everythingOf(reportOf(hyphened, 'ottermere/2026-01-10-okafor'), true)
    expect(everything).not.toMatch(/Okafor|Ada-May|Lane\b/)
  })

  it('gives names and the records behind each row when asked', () => {
    const asked = { withNames: true, withRecords: true }
    const page = pageOf(district, 'ottermere/2026-01-10-okafor', asked)
    expect(page.says.where?.['By whom']).toBe('Ada Okafor, technician of Invented Pest Services')
    expect(page.says['staying-out']).toMatchObject({
      'Seen dry or settled': 'at 08:50, Ada Okafor',
      'Opened again': 'Saturday 2026-01-10, 09:00, Tor Lind',
    })
    expect(page.says.ask?.Office).toBe('coordinator for pest control, Alder Fork School District: Ines Marsh')
    expect(page.tables.find(({ id }) => id === 'told')?.rows[0]?.records).toEqual([
      'sites/ottermere/notices/2026-01-06-marsh.yaml',
    ])
    // The sixteen new ones of the reason were read on 9 December and 6 January.
    expect(page.tables[0]?.rows[1]?.records).toEqual(
      expect.arrayContaining([
        'sites/ottermere/visits/2025-12-09-okafor.yaml',
        'sites/ottermere/visits/2026-01-06-okafor.yaml',
      ]),
    )
    const looked = page.tables.find(({ id }) => id === 'afterwards')?.rows[1]
    expect(looked?.records).toEqual(['sites/ottermere/visits/2026-01-24-okafor.yaml'])
    // Devices and placements stay out all the same.
    expect(everythingOf(page)).not.toContain('kick plate')
  })
})
it('marks, controls and formulas in a record stay text in every format', () => {
  const report = reportOf(
    oak(`${bare}\nreason: "=1+1 <b>*bold*</b> \\u001b[31mred \\u202e| end"\n`),
    'oak/2026-03-12-okafor',
  )
  const all = everythingOf(report)
  expect(all).not.toContain('\u001b')
  expect(all).not.toContain('\u202e')
  const markdown = reportMarkdown(report, { showWork: false })
  expect(markdown).toContain('=1+1 \\<b\\>\\*bold\\*\\</b\\>')
  expect(markdown).toContain('\\| end')
  expect(reportCsv(report, 'why')).toContain("'=1+1 <b>")
})

describe('free text of a record', () => {
  const others = `=== sites/oak/visits/2026-03-06-okafor.yaml
purpose: set-up
by: okafor
set:
  K2: {kind: sticky-trap, area: kitchen, within-reach: no}
  S1: {kind: snap-trap, area: kitchen, within-reach: no, marked-as: "#17"}
=== people/brown.yaml
name: May Brown
roles: [clerk]
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: []
areas:
  kitchen: {kind: kitchen}
  hall: {kind: dining, name: Lind Hall}
`
  const placed = bare.replace('{kitchen: {}}', '{kitchen: {where: hinge voids of the dish machine}}')
  const shown = (reason: string, asked = {}) =>
    oakPage(`${placed}\nreason: ${JSON.stringify(reason)}`, others, asked).says.why?.Reason

  it.each([
    ['Ada Okafor saw two', 'The technician saw two'],
    [
      'Ms. Marsh asked, Dr Lind agreed. Okafor came',
      'The coordinator asked, the site manager agreed. The technician came',
    ],
    ['told by A. Okafor, and by okafor', 'told by the technician, and by the technician'],
    [
      "Tor's key was lost at 18:10 Lind found it",
      "The site manager's key was lost at 18:10 the site manager found it",
    ],
    [
      'seen on 8 May; May Brown saw brown droppings, Brown again',
      'seen on 8 May; the clerk saw brown droppings, the clerk again',
    ],
    ['see 2026-03-10-okafor and 2026-03-11-marsh-b', 'see 2026-03-10 and 2026-03-11'],
  ])('loses the names of people: %s', (written, public_) => {
    expect(shown(written)).toBe(public_)
    // With names it is as written.
    expect(shown(written, { withNames: true })).toBe(written)
  })

  it.each([
    ['two nymphs on K1', 'two nymphs on a sticky trap'],
    ['K1 is full', 'A sticky trap is full'],
    ['boards K1, k2 and K2 full', 'boards full'],
    ['caught on K1 to K4', 'caught on some traps'],
    ['mice at #17 and S1', 'mice at some traps'],
    ['seen at the hinge voids of the dish machine', 'seen at the treated place'],
  ])('loses devices and placements, with names or without: %s', (written, public_) => {
    for (const withNames of [false, true]) expect(shown(written, { withNames })).toBe(public_)
  })

  it.each([
    'mice in Lind Hall, near Oak School',
    'Invented Bait A was not taken',
    'the Okaforia plant, K12, PK1 and 17 ants',
    'a lindane smell',
  ])('keeps other words, and the names of places and products: %s', (written) => {
    expect(shown(written)).toBe(written)
  })

  it('of several lines stands on one', () => {
    expect(shown('two\n  lines\t here ')).toBe('two lines here')
  })
})
