import { createHash } from 'node:crypto'
import { describe, expect, it } from 'vitest'
import { runCheck } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import type { Source } from '../../src/files/source.js'
import { dayOf, isoOf } from '../../src/measure/calendar.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { productsRules } from '../../src/rules/products/index.js'
import type { Problem } from '../../src/types.js'
import { expectedProblems, foundProblems } from './marked-problems.js'

const ids = new Set(productsRules.map((rule) => rule.id))

/** What the rules of this family say, as `file:line rule`; other rules are judged by their own tests. */
function found(overlay: string): string[] {
  return foundProblems(ledgerWith(overlay)).filter((line) => ids.has(line.split(' ')[1] ?? ''))
}

function problems(
  overlay: string,
  rule: string,
  source: Source = memorySource(ledgerWith(overlay)),
): readonly Problem[] {
  const result = runCheck(source, { asOf: dayOf('2026-03-20') ?? 0, asOfIsToday: true })
  return result.problems.filter((problem) => problem.rule === rule)
}

const bait = (facts: string) => `
=== products/bait-a/product.yaml
name: Invented Bait A
${facts}
`

/** Visits on which bait is put into a station; the first one sets it. */
const uses = (...days: string[]) =>
  days
    .map(
      (day, n) => `
=== sites/oak/visits/${day}-okafor.yaml
purpose: follow-up
by: okafor
${n === 0 ? 'set: {B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 station}}' : 'readings: {B1: {bait-taken: all, bait-added: 1 station, product: bait-a}}'}
`,
    )
    .join('')

const rulebooks = (...names: string[]) => `
=== district.yaml
format: 1
name: Example District
time-zone: America/Los_Angeles
records-begin: 2026-03-01
coordinator: [{from: 2026-03-01, who: marsh}]
rulebooks:
${names.map((name) => `  - {from: 2026-03-01, rulebook: ${name}}\n`).join('')}
calendar: [{from: 2025-09-02, until: 2026-06-12}]
`

describe('product-not-in-register', () => {
  it.each<[string, string]>([
    [
      'wherever a record names one',
      `
=== sites/oak/storage/2026-03-10-lind.yaml
by: lind
places:
  cupboard:
    area: kitchen
    locked: yes
    items:
      tub: {product: bait-b} # expect: product-not-in-register
      tin: {product: bait-a}
      can: {what: half a can without a label}
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
plants:
  fern-1: {area: room-1, removed: gnats, sprayed: yard, product: soap-x, dry: okafor} # expect: product-not-in-register
`,
    ],
    [
      'a product whose record is broken is not missing',
      `${bait('kind: pesticyde')}
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 station}
`,
    ],
  ])('%s', (_, overlay) => {
    expect(found(overlay)).toEqual(expectedProblems(ledgerWith(overlay)))
  })

  it('suggests the nearest one, or none', () => {
    const overlay = (product: string) => uses('2026-03-20').replace('product: bait-a', `product: ${product}`)
    const meant = (product: string) =>
      problems(overlay(product), 'product-not-in-register').map(({ args }) => args.meant)
    expect(meant('bait-aa')).toEqual(['bait-a'])
    expect(meant('zinc-phosphide-pellets')).toEqual([''])
  })
})

describe.each([
  ['product-without-label', 'labels', 'label.txt', 'sds: [{from: 2026-01-05, file: sds.txt}]'],
  ['product-without-sds', 'sds', 'sds.txt', 'labels: [{from: 2026-01-05, file: label.txt}]'],
])('%s', (rule, key, file, other) => {
  const pesticide = (...spans: string[]) =>
    bait(`kind: pesticide
registration: 99999-1
${key}: [${spans.map((span) => `{${span}, file: ${file}}`).join(', ')}]
${other}`)
  const spansOf = (overlay: string) =>
    problems(overlay, rule).map(
      ({ from, until, args }) => [isoOf(from), until === undefined ? '' : isoOf(until), args.more] as const,
    )

  it.each<[string, string, (readonly [string, string, number])[]]>([
    ['used on the first day it was in force', pesticide('from: 2026-03-10') + uses('2026-03-10'), []],
    [
      'used the day before',
      pesticide('from: 2026-03-11') + uses('2026-03-10'),
      [['2026-03-10', '2026-03-11', 0]],
    ],
    ['used on its last day', pesticide('from: 2026-01-05, until: 2026-03-10') + uses('2026-03-10'), []],
    [
      'used the day after',
      pesticide('from: 2026-01-05, until: 2026-03-09') + uses('2026-03-10'),
      [['2026-03-10', '', 0]],
    ],
    [
      'none at all, used four times: said once',
      bait(`kind: pesticide\nregistration: 99999-1\n${other}`) +
        uses('2026-03-10', '2026-03-12', '2026-03-14', '2026-03-16'),
      [['2026-03-10', '', 3]],
    ],
    [
      'two gaps are two findings',
      pesticide('from: 2026-03-12, until: 2026-03-13') +
        uses('2026-03-10', '2026-03-11', '2026-03-13', '2026-03-14', '2026-03-15'),
      [
        ['2026-03-10', '2026-03-12', 1],
        ['2026-03-14', '', 1],
      ],
    ],
    ['never used, nothing asked', pesticide('from: 2026-03-21'), []],
    ['used before the records begin', pesticide('from: 2026-03-01') + uses('2026-02-20'), []],
    [
      'a minimum-risk product too',
      bait(`kind: minimum-risk\n${other}`) + uses('2026-03-10'),
      [['2026-03-10', '', 0]],
    ],
    ['a lure needs none', bait(`kind: lure\n${other}`) + uses('2026-03-10'), []],
    [
      'no rulebook in force asks for it',
      rulebooks('practice') + pesticide('from: 2026-03-21') + uses('2026-03-10'),
      [],
    ],
  ])('%s', (_, overlay, expected) => {
    expect(spansOf(overlay)).toEqual(expected)
  })

  it('counts an application that was done, not one that is planned', () => {
    const application = (day: string, status: string) => `
=== sites/oak/applications/${day}-okafor.yaml
by: okafor
status: ${status}
product: bait-a
pest: german-cockroach
method: bait-placement
areas: {kitchen: {amount: 2 g}}
`
    expect(spansOf(pesticide('from: 2026-03-21') + application('2026-03-19', 'planned'))).toEqual([])
    expect(spansOf(pesticide('from: 2026-03-22') + application('2026-03-19', 'done'))).toEqual([
      ['2026-03-19', '2026-03-22', 0],
    ])
  })

  it('rests on law, so that no exception sets it aside', () => {
    const overlay = `${pesticide('from: 2026-03-21')}${uses('2026-03-10')}
=== exceptions/none.yaml
rule: ${rule}
by: marsh
why: never mind
from: 2026-03-01
until: 2026-12-31
`
    expect(
      problems(overlay, rule).map(({ level, sources }) => [
        level,
        sources.every(({ kind }) => kind === 'law'),
      ]),
    ).toEqual([['error', true]])
  })

  it('is asked although a rulebook of the district does not ask it', () => {
    const own = `
=== rulebooks/own.yaml
title: Own rules
jurisdiction: Example District
read-on: 2026-03-01
covers: papers
does-not-cover: [everything else]
parameters:
  label.at-hand: [{from: 2026-03-01, value: "no", source: board policy, kind: standard, confidence: read}]
  sds.at-hand: [{from: 2026-03-01, value: "no", source: board policy, kind: standard, confidence: read}]
`
    const overlay = pesticide('from: 2026-03-21') + uses('2026-03-10') + own
    expect(spansOf(overlay + rulebooks('own', 'us-federal'))).toHaveLength(1)
    expect(spansOf(overlay + rulebooks('own'))).toHaveLength(0)
  })
})

describe('living agents', () => {
  const wasps = bait('kind: living-agent') + uses('2026-03-10')
  it('are asked for a label by practice alone: the pesticide law leaves them out', () => {
    expect(
      problems(wasps, 'product-without-label').map(({ level, sources }) => [
        level,
        sources.map(({ kind }) => kind),
      ]),
    ).toEqual([['warning', ['practice']]])
  })
  it('are asked for no safety data sheet', () => {
    expect(problems(wasps, 'product-without-sds')).toEqual([])
  })
})

const photo = (file: string) => `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
files:
  page-1: {file: ${file}, shows: scan of the paper page}`

describe('file-missing', () => {
  it.each<[string, string]>([
    ['a scan beside a visit', `${photo('page.jpg')} # expect: file-missing\n`],
    ['a scan that lies deeper', `${photo('scans/page.jpg')}\n=== sites/oak/visits/scans/page.jpg\nx\n`],
    [
      'a doubled slash is no other file',
      `${photo('scans//page.jpg')}\n=== sites/oak/visits/scans/page.jpg\nx\n`,
    ],
    ['capitals count', `${photo('page.jpg')} # expect: file-missing\n=== sites/oak/visits/Page.jpg\nx\n`],
    [
      'a file of that name in another folder',
      `${photo('page.jpg')} # expect: file-missing\n=== page.jpg\nx\n`,
    ],
    [
      'records of the district, from their own folder',
      `
=== people/okafor.yaml
name: Ada Okafor
roles: [technician]
licences:
  or-commercial:
    number: "00-1234"
    state: OR
    kind: commercial applicator
    categories: [structural]
    spans:
      - {from: 2026-01-01, file: okafor-2026.pdf} # expect: file-missing
=== people/okafor-2025.pdf
x
`,
    ],
    [
      'district.yaml lies at the root',
      `${rulebooks('practice').trimEnd()}
policies:
  ipm: {title: Pest policy, adopted: 2026-03-01, file: policies/ipm.md}
=== policies/ipm.md
An invented policy.
`,
    ],
  ])('%s', (_, overlay) => {
    expect(found(overlay)).toEqual(expectedProblems(ledgerWith(overlay)))
  })

  it('covers the notice itself, whose key is not `file`', () => {
    const overlay = `
=== sites/oak/notices/2026-03-10-marsh.yaml
by: marsh
application: 2026-03-19-okafor
text: notice.md # expect: file-missing
=== sites/oak/applications/2026-03-19-okafor.yaml
by: okafor
status: planned
product: bait-a
pest: german-cockroach
method: bait-placement
areas: {kitchen: {amount: 2 g}}
`
    expect(found(overlay)).toEqual(expectedProblems(ledgerWith(overlay)))
  })
})

describe('file-changed', () => {
  const label = 'An invented label.\n'
  const hash = createHash('sha256').update(label).digest('hex')
  const changed = createHash('sha256').update('An altered label.\n').digest('hex')
  const withHash = (sha256: string, more = '') =>
    bait(`kind: pesticide
registration: 99999-1
labels:
  - {from: 2026-01-05, file: label.txt, sha256: ${sha256}}${more}
sds: [{from: 2026-01-05, file: sds.txt}]`)

  it.each<[string, string]>([
    ['the same file', withHash(hash)],
    ['another file', withHash(changed, ' # expect: file-changed')],
    [
      'changed by the end of a line only',
      `${withHash(hash, ' # expect: file-changed')}=== products/bait-a/label.txt\nAn invented label.\r\n`,
    ],
    [
      'a file that is missing is said once',
      `${withHash(changed, ' # expect: file-missing')}=== products/bait-a/label.txt (delete)\n`,
    ],
    [
      'also at a site',
      `
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract:
  - {from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly, file: contract.txt, sha256: ${hash}} # expect: file-changed
diagram: {file: plan.txt, unit: ft, sha256: ${hash}}
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
=== sites/oak/contract.txt
Other terms.
=== sites/oak/plan.txt
An invented label.
`,
    ],
  ])('%s', (_, overlay) => {
    expect(found(overlay)).toEqual(expectedProblems(ledgerWith(overlay)))
  })

  it('says that a file could not be compared, rather than nothing', () => {
    const files = memorySource(ledgerWith(withHash(hash)))
    const locked: Source = {
      ...files,
      sha256: () => ({ refused: 'no-permission', detail: 'may not be read by you' }),
    }
    expect(problems('', 'file-changed', locked).map(({ args }) => args.detail)).toEqual([
      'may not be read by you',
    ])
  })

  it('hashes a file once, however many records name it', () => {
    const overlay = withHash(hash, `\n  - {from: 2026-03-01, file: label.txt, sha256: ${hash}}`)
    const files = memorySource(ledgerWith(overlay))
    const asked: string[] = []
    const counting: Source = {
      ...files,
      sha256: (path) => {
        asked.push(path)
        return files.sha256(path)
      },
    }
    expect(problems('', 'file-changed', counting)).toEqual([])
    expect(asked).toEqual(['products/bait-a/label.txt'])
  })
})
