import { expect, it } from 'vitest'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { baitApplication, sprayApplication } from '../../src/rules/example-applications.js'
import { sprayLabel } from '../../src/rules/label-use/example-ledgers.js'
import { underOwnRulebook } from '../../src/rules/own-rulebook.js'
import { temporaryFolder, writeFiles } from '../files/temporary-folder.js'
import { doorsweep } from './run-main.js'

/** Slips that people make with products, applications, notices and rulebooks: each is one clear problem at its own line. */
const law = 'source: Invented Pest Act, kind: law, confidence: read'
const bait = `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-EGN
states: {OR: [{from: 2025-01-01}]}
active-ingredients: {boric-acid: {strength: 5 %}}
formulation: gel
signal-word: caution
labels: [{from: 2026-01-05, file: label.txt, says: {places: [indoors], pest-groups: [cockroach], methods: [crack-and-crevice]}}]
sds: [{from: 2026-01-05, file: sds.txt}]
`
const anotherState = `
=== people/okafor.yaml
name: Ada Okafor
roles: [technician, applicator]
firm: invented-pest-services
licences:
  wa: {number: XX-9, state: WA, kind: applicator, categories: [structural], spans: [{from: 2025-01-01}]}
`
const notice = (day: string) => `
=== sites/oak/notices/${day}-marsh.yaml
by: marsh
application: 2026-03-12-okafor
sent:
  to: everyone
  at: 09:00
  how: email
`

it.each<[string, string, RegExp]>([
  [
    'a registration number that is a file symbol',
    bait + baitApplication('2026-03-12'),
    /^products\/bait-a\/product\.yaml:3:\d+: error: .*99999-EGN.*file symbol.*\[registration-number-is-none\]$/m,
  ],
  [
    'a rate in ounces for a liquid',
    sprayLabel('').replace('at-most: 16 fl oz, per: 1000 ft2', 'at-most: 16 oz, per: 1000 ft2'),
    /^products\/spray-a\/product\.yaml:\d+:\d+: warning: .*\[weight-rate-of-a-liquid\]$/m,
  ],
  [
    'an application across midnight into the day on which the clock is set',
    baitApplication('2026-03-07', 'time: 23:30 to 03:10', 'dry:', 'reopened:'),
    /^sites\/oak\/applications\/2026-03-07-okafor\.yaml:\d+:\d+: error: .*03:10.*23:30.*\[ends-before-it-starts\]$/m,
  ],
  [
    'a licence of another state',
    underOwnRulebook(`licences: {applicator: [{from: 2026-03-01, of: applicator, in-state: yes, ${law}}]}`) +
      anotherState +
      baitApplication('2026-03-12'),
    /^sites\/oak\/applications\/2026-03-12-okafor\.yaml:1:\d+: error: .*WA.*\[licence-of-another-state\]$/m,
  ],
  [
    'a notice dated after the application',
    underOwnRulebook(
      `notices: {staff: [{from: 2026-03-01, to: staff, reach: all, lead: 24 hours, ${law}}]}`,
    ) +
      sprayApplication('2026-03-12') +
      notice('2026-03-13'),
    /^sites\/oak\/notices\/2026-03-13-marsh\.yaml:5:\d+: error: .*\[notice-late\]$/m,
  ],
  [
    'a rulebook with overlapping dates',
    underOwnRulebook(`
keeping:
  applications:
    - {from: 2020-01-01, until: 2026-01-31, what: applications, keep: 2 years, ${law}}
    - {from: 2026-01-01, what: applications, keep: 3 years, ${law}}`),
    /^rulebooks\/own\.yaml:\d+:\d+: error: .*2026-01-01.*2020-01-01.*\[rulebook-dates-overlap\]$/m,
  ],
  [
    'a parameter nobody reads',
    underOwnRulebook(`
parameters:
  sighting.identfy: [{from: 2026-03-01, value: 14 days, ${law}}]`),
    /^rulebooks\/own\.yaml:\d+:\d+: error: .*sighting\.identify.*\[rulebook-parameter-unread\]$/m,
  ],
])('%s is one problem', async (_what, overlay, expected) => {
  const root = temporaryFolder()
  writeFiles(root, ledgerWith(overlay))
  const { code, out } = await doorsweep(root, 'check', '--fail-on', 'note')
  const first = out.split('\n').filter((line) => /: (?:error|warning|note): /.test(line))
  expect(first.filter((line) => !expected.test(line))).toEqual([])
  expect(first).toHaveLength(1)
  expect(code).toBe(1)
})
