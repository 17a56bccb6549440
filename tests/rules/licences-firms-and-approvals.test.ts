import { describe, expect, it } from 'vitest'
import { gelInCracks, inventedAct, okafor, ownRulebook } from '../../src/rules/licences/example-ledgers.js'
import { baits, days, duty, problems } from './licence-checks.js'

describe('firm-without-licence', () => {
  const ofFirm = duty('of: firm, in-state: yes')
  const firm = (licence: string) => `
=== firms/invented-pest-services.yaml
name: Invented Pest Services
${licence === '' ? '' : `licences: {or-operator: {number: XX-7, kind: operator, categories: [structural], ${licence}}}`}
`
  const without = (line: string) => `
=== people/okafor.yaml
name: Ada Okafor
roles: [technician, applicator]
${line}
`
  const contractless = `
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
`
  it.each<[string, string, string | undefined]>([
    [
      'in force on its last day',
      firm('state: OR, spans: [{from: 2025-01-01, until: 2026-03-12}]'),
      undefined,
    ],
    ['the day after', firm('state: OR, spans: [{from: 2025-01-01, until: 2026-03-11}]'), 'not-in-force'],
    ['none at all', firm(''), 'no-licence'],
    ['of another state', firm('state: WA, spans: [{from: 2025-01-01}]'), 'of-another-state'],
    [
      'one that certifies nobody does for a firm',
      firm('state: OR, certified: no, spans: [{from: 2025-01-01}]'),
      undefined,
    ],
    ['of the contract, where the person names no firm', without('') + firm(''), 'no-licence'],
    ['no firm named anywhere', without('') + contractless, ''],
    ['a firm that is not there is told elsewhere', without('firm: no-such-firm'), undefined],
  ])('%s', (_, overlay, standing) => {
    expect(problems(ofFirm + overlay + gelInCracks()).map(({ args }) => args.standing)).toEqual(
      standing === undefined ? [] : [standing],
    )
  })

  it('is told once for a gap, and stays told when the licence is renewed: what was done then was done without', () => {
    const renewed = firm('state: OR, spans: [{from: 2025-01-01, until: 2026-03-03}, {from: 2026-03-09}]')
    expect(days(ofFirm + renewed + baits('2026-03-03', '2026-03-04', '2026-03-06', '2026-03-09'))).toEqual([
      ['2026-03-04', '', 1],
    ])
  })
})

describe('approval-missing', () => {
  const asked = ownRulebook(
    `approvals:\n  before: [{${inventedAct} 6, by: [certified-applicator, coordinator], good-for: 6 months}]`,
  ).replace('coordinator: [{from: 2026-03-01, who: marsh}]', 'coordinator: [{from: 2025-01-01, who: marsh}]')
  const by = (who: string, on: string) => gelInCracks('okafor', `approved: {by: [${who}], on: ${on}}`)
  it.each<[string, string, string | undefined]>([
    ['none', gelInCracks(), 'approval'],
    ['on the day itself', by('okafor, marsh', '2026-03-12'), undefined],
    ['the day after', by('okafor, marsh', '2026-03-13'), 'time'],
    // Six months from 12 September 2025 are over with 12 March 2026.
    ['six months before to the day', by('okafor, marsh', '2025-09-12'), undefined],
    ['a day more', by('okafor, marsh', '2025-09-11'), 'freshness'],
    ['not by the coordinator', by('okafor', '2026-03-10'), 'approver'],
    ['not by a certified applicator', by('marsh, lind', '2026-03-10'), 'approver'],
    [
      'by someone certified under a lesser licence',
      okafor({ certified: 'no' }) + by('okafor, marsh', '2026-03-10'),
      'approver',
    ],
    // Whoever approves is one on the day of the approval.
    [
      'by someone licensed since',
      okafor({ from: '2026-03-11' }) + by('okafor, marsh', '2026-03-10'),
      'approver',
    ],
    [
      'by someone licensed that day',
      okafor({ from: '2026-03-10' }) + by('okafor, marsh', '2026-03-10'),
      undefined,
    ],
    ['by someone who is not in the ledger', by('okaforr, marsh', '2026-03-10'), undefined],
    ['of bait in a device a visit cannot tell', baits('2026-03-12'), undefined],
  ])('%s', (_, overlay, lacks) => {
    expect(problems(asked + overlay).map(({ args }) => args.lacks)).toEqual(
      lacks === undefined ? [] : [lacks],
    )
  })

  it('two duties are one finding', () => {
    const two = ownRulebook(
      `approvals:\n  a: [{${inventedAct} 6, by: [coordinator]}]\n  b: [{${inventedAct} 7, by: [certified-applicator]}]`,
    )
    expect(problems(two + gelInCracks()).map(({ args, sources }) => [args.kinds, sources.length])).toEqual([
      [['coordinator', 'certified-applicator'], 2],
    ])
  })
})
