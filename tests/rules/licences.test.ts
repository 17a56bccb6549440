import { describe, expect, it } from 'vitest'
import { dayOf, isoOf } from '../../src/measure/calendar.js'
import type { ExampleLicence } from '../../src/rules/licences/example-ledgers.js'
import {
  gelInCracks,
  inventedAct,
  okafor,
  ownRulebook,
  vale,
} from '../../src/rules/licences/example-ledgers.js'
import { baits, days, duty, problems, told } from './licence-checks.js'

const inState = duty('of: applicator, in-state: yes, categories: [structural]')
const underSupervision = duty('of: applicator, in-state: yes, supervised: yes')

const spans = (...list: string[]) => `
=== people/okafor.yaml
name: Ada Okafor
roles: [technician, applicator]
firm: invented-pest-services
licences:
  or-applicator:
    number: XX-1
    state: OR
    kind: commercial applicator
    categories: [structural]
    spans: [${list.map((span) => `{${span}}`).join(', ')}]
`

describe('the licence of whoever applied', () => {
  it.each<[string, string, string[]]>([
    ['is in force on its first day', okafor({ from: '2026-03-12' }), []],
    ['is not the day before', okafor({ from: '2026-03-13' }), ['licence-not-in-force at by']],
    ['is in force on its last day', okafor({ until: '2026-03-12' }), []],
    ['is not the day after', okafor({ until: '2026-03-11' }), ['licence-not-in-force at by']],
    ['is missing altogether', okafor(), ['applicator-without-licence at by']],
    ['is of another state', okafor({ state: 'WA' }), ['licence-of-another-state at by']],
    ['is of another category', okafor({ category: 'turf' }), ['licence-without-category at by']],
    ['may write its category otherwise', okafor({ category: '" Structural "' }), []],
    ['may be for work under someone', okafor({ certified: 'no' }), ['applicator-not-supervised at by']],
    [
      'of another state, and run out: it was not in force',
      okafor({ state: 'WA', until: '2026-03-11' }),
      ['licence-not-in-force at by'],
    ],
  ])('%s', (_, person, expected) => {
    expect(told(inState + person + gelInCracks())).toEqual(expected)
  })

  const two = (first: string, second: string) => `
=== people/okafor.yaml
name: Ada Okafor
roles: [technician, applicator]
firm: invented-pest-services
licences:
  one: {number: XX-1, kind: first, ${first}}
  two: {number: XX-2, kind: second, ${second}}
`
  const inForce = 'spans: [{from: 2025-01-01, until: 2026-12-31}]'
  const over = 'spans: [{from: 2024-01-01, until: 2025-12-31}]'

  it.each<[string, string, string[]]>([
    [
      'the right one that ran out is told before the wrong one in force',
      two(`state: OR, categories: [structural], ${over}`, `state: WA, categories: [structural], ${inForce}`),
      ['licence-not-in-force at by'],
    ],
    [
      'state and category of two licences do not add up to one',
      two(`state: OR, categories: [turf], ${inForce}`, `state: WA, categories: [structural], ${inForce}`),
      ['licence-without-category at by'],
    ],
    [
      'one that does is enough',
      two(`state: OR, categories: [turf], ${over}`, `state: OR, categories: [structural], ${inForce}`),
      [],
    ],
    [
      'a certified one counts before a lesser one',
      two(
        `state: OR, categories: [structural], certified: no, ${inForce}`,
        `state: OR, categories: [structural], certified: yes, ${inForce}`,
      ),
      [],
    ],
    [
      'a lesser one in force where the certified one ran out needs someone above',
      two(
        `state: OR, categories: [structural], certified: no, ${inForce}`,
        `state: OR, categories: [structural], ${over}`,
      ),
      ['applicator-not-supervised at by'],
    ],
  ])('of two licences, %s', (_, person, expected) => {
    expect(told(inState + person + gelInCracks())).toEqual(expected)
  })

  it('may be of any state and category where the duty does not say', () => {
    expect(told(duty('of: applicator') + okafor({ state: 'WA', category: 'turf' }) + gelInCracks())).toEqual(
      [],
    )
  })

  it('is not asked for by state where the rulebook is of none', () => {
    const stateless = inState.replace('jurisdiction: Example State\nstate: OR\n', 'jurisdiction: here\n')
    expect(told(stateless + okafor({ state: 'WA' }) + gelInCracks())).toEqual([])
  })

  it('says when it ended and when the next begins', () => {
    const [problem] = problems(
      inState +
        spans('from: 2024-01-01, until: 2026-03-10', 'from: 2026-03-14, until: 2027-03-13') +
        gelInCracks(),
    )
    expect(problem?.args).toMatchObject({
      person: 'Ada Okafor',
      licences: ['XX-1'],
      ended: '2026-03-10',
      begins: '2026-03-14',
    })
  })
})

describe('who may work under supervision', () => {
  type Row = [string, ExampleLicence | undefined, ExampleLicence | undefined | 'nobody', string[]]
  const above = ' at supervised-by'
  const rows: Row[] = [
    ['nobody named, no licence', undefined, 'nobody', ['applicator-without-licence at by']],
    ['no licence under a certified applicator', undefined, {}, []],
    ['no licence under someone with none', undefined, undefined, ['applicator-without-licence at by']],
    ['no licence under a lesser one', undefined, { certified: 'no' }, [`applicator-not-supervised${above}`]],
    [
      'no licence under one that ran out',
      undefined,
      { until: '2026-03-11' },
      [`licence-not-in-force${above}`],
    ],
    ['no licence under one of Washington', undefined, { state: 'WA' }, [`licence-of-another-state${above}`]],
    ['a lesser one, nobody named', { certified: 'no' }, 'nobody', ['applicator-not-supervised at by']],
    ['a lesser one under a certified one', { certified: 'no' }, {}, []],
    [
      'a lesser one under someone with none',
      { certified: 'no' },
      undefined,
      [`applicator-not-supervised${above}`],
    ],
    [
      'a lesser one under another lesser one',
      { certified: 'no' },
      { certified: 'no' },
      [`applicator-not-supervised${above}`],
    ],
    ['one that ran out under a certified one', { until: '2026-03-11' }, {}, []],
    ['one that ran out, nobody named', { until: '2026-03-11' }, 'nobody', ['licence-not-in-force at by']],
    [
      'one that ran out under someone with none',
      { until: '2026-03-11' },
      undefined,
      ['licence-not-in-force at by'],
    ],
    ['a certified one needs nobody, whoever is named', {}, undefined, []],
  ]
  it.each(rows)('%s', (_, worker, supervisor, expected) => {
    const named = supervisor === 'nobody' ? '' : 'supervised-by: vale'
    const record = supervisor === 'nobody' ? vale() : vale(supervisor)
    expect(told(underSupervision + okafor(worker) + record + gelInCracks('okafor', named))).toEqual(expected)
  })

  it('is nobody without a licence where the duty does not let them', () => {
    expect(told(inState + okafor() + vale({}) + gelInCracks('okafor', 'supervised-by: vale'))).toEqual([
      'applicator-without-licence at by',
    ])
  })

  it('nobody supervises themselves', () => {
    expect(
      told(underSupervision + okafor({ certified: 'no' }) + gelInCracks('okafor', 'supervised-by: okafor')),
    ).toEqual(['applicator-not-supervised at supervised-by'])
  })

  it('is said of bait in devices by the visit', () => {
    const visit = (more: string) => baits('2026-03-12').replace('by: okafor\n', `by: okafor\n${more}`)
    const people = underSupervision + okafor({ certified: 'no' }) + vale({})
    expect(told(people + visit(''))).toEqual(['applicator-not-supervised at by'])
    expect(told(people + visit('supervised-by: vale\n'))).toEqual([])
  })

  it('someone who is not in the ledger is told elsewhere', () => {
    const named = gelInCracks('okafor', 'supervised-by: valle')
    expect(told(underSupervision + okafor() + named)).toEqual([])
    expect(told(underSupervision + gelInCracks('okaforr'))).toEqual([])
  })

  it('someone whose record is broken is told there', () => {
    const broken = '\n=== people/okafor.yaml\nname: Ada Okafor\nroles: [aplicator]\n'
    expect(problems(inState + broken + gelInCracks())).toEqual([])
  })
})

describe('what is judged', () => {
  it.each<[string, string, string[]]>([
    [
      'bait in a device, at whoever made the visit',
      baits('2026-03-12'),
      ['applicator-without-licence at by'],
    ],
    ['not what is only planned', gelInCracks().replace('status: done', 'status: planned'), []],
    ['not what was used before the records begin', baits('2026-02-27'), []],
    ['from the first day on', baits('2026-03-01'), ['applicator-without-licence at by']],
    [
      'not a lure',
      `${baits('2026-03-12')}\n=== products/bait-a/product.yaml\nname: Invented Lure\nkind: lure\n`,
      [],
    ],
    [
      'not a product that is in no register, which is told elsewhere',
      gelInCracks().replace('product: bait-a', 'product: bait-aa'),
      [],
    ],
  ])('%s', (_, use, expected) => {
    expect(told(inState + okafor() + use)).toEqual(expected)
  })

  it('not a use that is exempt', () => {
    const exempt = ownRulebook(`
uses:
  gels: [{${inventedAct} 1, any: [{formulation: [gel], method: [crack-and-crevice]}]}]
licences:
  applicator: [{${inventedAct} 3, of: applicator, not-for: [gels]}]
`)
    expect(told(exempt + okafor() + gelInCracks())).toEqual([])
    expect(told(exempt + okafor() + baits('2026-03-12'))).toEqual(['applicator-without-licence at by'])
  })

  it('by the duty of the day: a version that begins later judges nothing before it', () => {
    const from = (day: string) => inState.replace('from: 2020-01-01', `from: ${day}`)
    expect(told(from('2026-03-12') + okafor() + gelInCracks())).toEqual(['applicator-without-licence at by'])
    expect(told(from('2026-03-13') + okafor() + gelInCracks())).toEqual([])
  })

  it('restricted use by federal law, and nothing else by it', () => {
    const restricted = `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
restricted-use: yes
formulation: gel
`
    expect(told(okafor() + gelInCracks())).toEqual([])
    expect(told(restricted + okafor() + gelInCracks())).toEqual(['applicator-without-licence at by'])
    expect(told(restricted + okafor({ state: 'WA' }) + gelInCracks())).toEqual([])
    expect(told(restricted + okafor() + vale({}) + gelInCracks('okafor', 'supervised-by: vale'))).toEqual([])
  })
})

describe('one cause is told once', () => {
  it('ten years of bait without a licence are one finding', () => {
    const dates: string[] = []
    for (let day = dayOf('2026-03-02') ?? 0; day < (dayOf('2036-03-02') ?? 0); day += 7)
      dates.push(isoOf(day))
    // 3653 days (366 in 2028 and 2032, and 2036-02-29) in steps of seven from the first: 522 visits, 521 later ones.
    expect(days(inState + okafor() + baits(...dates), '2036-03-10')).toEqual([['2026-03-02', '', 521]])
  })

  it('two gaps between licences are two, and a later licence makes neither good', () => {
    const twice = spans('from: 2025-01-01, until: 2026-03-03', 'from: 2026-03-08, until: 2026-03-10')
    expect(
      days(inState + twice + baits('2026-03-03', '2026-03-04', '2026-03-07', '2026-03-08', '2026-03-11')),
    ).toEqual([
      ['2026-03-04', '', 1],
      ['2026-03-11', '', 0],
    ])
  })

  it('several rulebooks that ask the same are one, and each is cited; law makes it an error', () => {
    const rulebook = (kind: string, source: string) =>
      `{from: 2020-01-01, kind: ${kind}, confidence: read, source: ${source}, of: applicator, in-state: yes}`
    const of = (...duties: string[]) =>
      problems(
        ownRulebook(`licences:\n${duties.map((text, n) => `  d${n}: [${text}]`).join('\n')}`) +
          okafor({ until: '2026-03-11' }) +
          gelInCracks(),
      ).map(({ level, sources }) => [level, sources.map(({ text }) => text)])
    expect(of(rulebook('practice', 'custom'))).toEqual([['note', ['custom']]])
    expect(of(rulebook('standard', 'board policy'))).toEqual([['warning', ['board policy']]])
    expect(of(rulebook('standard', 'board policy'), rulebook('law', 'an Act'))).toEqual([
      ['error', ['board policy', 'an Act']],
    ])
  })

  it('a licence of another state does for one duty and not for the other', () => {
    const both = ownRulebook(
      `licences:\n  any: [{${inventedAct} 1, of: applicator}]\n  here: [{${inventedAct} 2, of: applicator, in-state: yes}]`,
    )
    expect(
      problems(both + okafor({ state: 'WA' }) + gelInCracks()).map(({ rule, sources }) => [
        rule,
        sources.map(({ text }) => text),
      ]),
    ).toEqual([['licence-of-another-state', ['Invented Pest Act section 2']]])
  })

  it('a gap for two duties is told once', () => {
    const both = ownRulebook(
      `licences:\n  any: [{${inventedAct} 1, of: applicator}]\n  here: [{${inventedAct} 2, of: applicator, in-state: yes}]`,
    )
    const person = `
=== people/okafor.yaml
name: Ada Okafor
roles: [technician, applicator]
licences:
  wa:
    number: XX-1
    state: WA
    kind: commercial applicator
    categories: [structural]
    spans: [{from: 2025-01-01, until: 2026-03-10}, {from: 2026-03-15}]
  or:
    number: XX-2
    state: OR
    kind: commercial applicator
    categories: [structural]
    spans: [{from: 2025-01-01, until: 2026-03-11}, {from: 2026-03-18}]
`
    expect(days(both + person + gelInCracks())).toEqual([['2026-03-12', '', 0]])
  })

  it.each<[string, string]>([
    ['applicator-without-licence', inState + okafor()],
    ['licence-not-in-force', inState + okafor({ until: '2026-03-01' })],
    ['licence-of-another-state', inState + okafor({ state: 'WA' })],
    ['licence-without-category', inState + okafor({ category: 'turf' })],
    ['applicator-not-supervised', underSupervision + okafor({ certified: 'no' })],
  ])('%s: the first of three uses is pointed at, with two more', (rule, people) => {
    expect(
      problems(people + baits('2026-03-06', '2026-03-10', '2026-03-12')).map((problem) => [
        problem.rule,
        problem.at.file,
        problem.args.more,
      ]),
    ).toEqual([[rule, 'sites/oak/visits/2026-03-06-okafor.yaml', 2]])
  })

  it('uses that the law asks about are not hidden behind one that a policy asks about', () => {
    const both = ownRulebook(`
uses:
  baits: [{${inventedAct} 1, any: [{method: [in-a-station]}]}]
licences:
  any: [{from: 2020-01-01, kind: standard, confidence: read, source: board policy, of: applicator}]
  baits: [{${inventedAct} 3, of: applicator, holds-for: [baits]}]
`)
    expect(
      problems(both + okafor() + gelInCracks() + baits('2026-03-13', '2026-03-14')).map(
        ({ level, from, args }) => [level, isoOf(from), args.more],
      ),
    ).toEqual([
      ['warning', '2026-03-12', 0],
      ['error', '2026-03-13', 1],
    ])
  })
})
