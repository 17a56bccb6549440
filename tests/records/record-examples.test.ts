import { describe, expect, it } from 'vitest'
import type { z } from 'zod'
import { runCheck } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { isPlain } from '../../src/files/plain-subset.js'
import { readRecord } from '../../src/files/read-record.js'
import { dayOf } from '../../src/measure/calendar.js'
import { allRecordKinds, recordKinds } from '../../src/records/kinds.js'
import { recordPathOf } from '../../src/records/paths.js'
import { recordExamples } from '../../src/records/record-examples.js'
import { ruleById } from '../../src/rules/all.js'
import { linksRules } from '../../src/rules/links/index.js'
import { readingRules } from '../../src/rules/reading/index.js'

describe.each(allRecordKinds)('the example of a %s', (kind) => {
  const { file, text } = recordExamples[kind]

  it('lies where its kind belongs', () => {
    expect(recordPathOf(file)).toMatchObject({ file, kind })
  })

  it('has the shape of its kind, and is read the fast way', () => {
    const read = readRecord(Buffer.from(text))
    if ('faults' in read) throw new Error(JSON.stringify(read.faults))
    expect((recordKinds[kind].schema as z.ZodType).safeParse(read.data).error?.issues).toBeUndefined()
    expect(isPlain(text)).toBe(true)
  })
})

/** What the examples lean on: the people they name, and an earlier visit that set the devices they read. */
const companions: [string, string][] = [
  ['people/marsh.yaml', 'name: Ines Marsh\nroles: [coordinator]\n'],
  ['people/lind.yaml', 'name: Tor Lind\nroles: [site-manager]\n'],
  ['people/reyes.yaml', 'name: Sol Reyes\nroles: [clerk]\n'],
  ['products/block-x/product.yaml', 'name: Invented Block X\nkind: pesticide\nregistration: 99999-2\n'],
  ['products/bait-a/label-2024-03.pdf', 'invented'],
  ['products/bait-a/sds-2024-03.pdf', 'invented'],
  ['plans/house-mouse.yaml', 'spans: [{from: 2024-08-01, tactics: {close: {do: close the gap}}}]\n'],
  ['sites/ottermere/diagram.svg', '<svg/>'],
  [
    'sites/ottermere/visits/2026-02-12-okafor.yaml',
    `purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen, dock, room-12, custodial, boiler-room]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
  K2: {kind: sticky-trap, area: kitchen, within-reach: no}
  K3: {kind: sticky-trap, area: kitchen, within-reach: no}
  K4: {kind: sticky-trap, area: kitchen, within-reach: no}
  K9: {kind: sticky-trap, area: kitchen, within-reach: no}
  D1: {kind: bait-station, area: dock, product: block-x, secured: yes, marked: yes}
  D2: {kind: bait-station, area: dock, product: block-x, secured: yes, marked: yes}
`,
  ],
]

it('together the examples are one ledger: everything they name is there', () => {
  const files = new Map([
    ...allRecordKinds.map((kind) => [recordExamples[kind].file, recordExamples[kind].text] as const),
    ...companions,
  ])
  const result = runCheck(memorySource(files), { asOf: dayOf('2026-06-30') ?? 0, asOfIsToday: true })
  expect(result.notChecked).toEqual([])
  const held = new Set([...readingRules, ...linksRules].map(({ id }) => id))
  const told = result.problems
    .filter(({ rule }) => held.has(rule))
    .map(({ rule, at, args }) => `${at.file} ${at.path.join('.')}: ${ruleById(rule)?.says(args)}`)
  expect(told).toEqual([])
})
