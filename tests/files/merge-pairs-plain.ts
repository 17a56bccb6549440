import { expect } from 'vitest'
import { baitApplication } from '../../src/rules/example-applications.js'
import type { Deed, Files } from './merge-pairs-deeds.js'

/** Each technician's application, at another school each. */
export function applications(): Deed[] {
  const [, oak = ''] = baitApplication('2026-03-19').split(/^=== .*\n/m)
  const elm = oak.replaceAll('okafor', 'moreno').replaceAll('kitchen', 'hall').replaceAll('K1', 'H1')
  return [
    {
      who: 'okafor',
      what: 'an application at oak',
      change: () => new Map([['sites/oak/applications/2026-03-19-okafor.yaml', oak]]),
    },
    {
      who: 'moreno',
      what: 'an application at elm',
      change: () => new Map([['sites/elm/applications/2026-03-19-moreno.yaml', elm]]),
    },
  ]
}

/** Events that no command writes as a whole. */
export function eventsInPlainText(): Deed[] {
  return ['marsh', 'reyes'].map((who) => ({
    who,
    what: 'a notice',
    change: () =>
      new Map([
        [
          `sites/oak/notices/2026-03-20-${who}.yaml`,
          `by: ${who}\napplication: 2026-03-18-okafor\nsent: {to: all staff, at: 09:15, how: email}\n`,
        ],
      ]),
  }))
}

/** Puts a line behind another that stands once in a file. */
function after(path: string, line: string, added: string): (files: Files) => Files {
  return (files) => {
    const text = files.get(path) ?? ''
    expect(text.split(`${line}\n`)).toHaveLength(2)
    return new Map([[path, text.replace(`${line}\n`, `${line}\n${added}\n`)]])
  }
}

/** What people add to records that are kept up, each in a list of its own. */
export function additionsToReferences(): Deed[] {
  const product = 'products/bait-a/product.yaml'
  const rates =
    '      rates: {placements: {at-most: 1 g, per: placement, methods: [crack-and-crevice, void, bait-placement]}}'
  const deeds: Deed[] = [
    {
      who: 'marsh',
      what: "a new span of a product's label, with its file",
      change: (files) =>
        new Map([
          ...after(
            product,
            rates,
            `  - from: 2026-03-20\n    file: label-2026-03.txt\n    says:\n      places: [indoors]\n      pest-groups: [cockroach, ant]\n      methods: [crack-and-crevice, void, bait-placement, in-a-station]\n${rates}`,
          )(files),
          ['products/bait-a/label-2026-03.txt', 'An invented label, printed anew.\n'],
        ]),
    },
    {
      who: 'reyes',
      what: 'a new safety data sheet of the same product, with its file',
      change: (files) =>
        new Map([
          ...after(
            product,
            '  - {from: 2026-01-05, file: sds.txt}',
            '  - {from: 2026-03-18, file: sds-2026-03.txt}',
          )(files),
          ['products/bait-a/sds-2026-03.txt', 'An invented safety data sheet, printed anew.\n'],
        ]),
    },
    {
      who: 'lind',
      what: 'a note on a product',
      change: after(product, 'notes: kept at the district office', '# one box is at Oak School'),
    },
    {
      who: 'moreno',
      what: 'a registration in another state',
      change: after(product, '    - {from: 2025-01-01}', '  WA:\n    - {from: 2026-03-01}'),
    },
  ]
  for (const who of ['okafor', 'moreno'])
    deeds.push(
      {
        who: 'marsh',
        what: `a new span of ${who}'s licence`,
        change: after(
          `people/${who}.yaml`,
          '      - {from: 2025-01-01, until: 2026-12-31}',
          '      - {from: 2027-01-01, until: 2028-12-31}',
        ),
      },
      {
        who: 'reyes',
        what: `${who}'s training`,
        change: after(
          `people/${who}.yaml`,
          '  kitchens-2026: {on: 2026-01-14, topic: Inspecting school kitchens, hours: 2}',
          '  rodents-2026: {on: 2026-03-18, topic: Keeping rodents out, hours: 2}',
        ),
      },
      {
        who: 'lind',
        what: `where to reach ${who}`,
        change: after(`people/${who}.yaml`, 'roles: [technician, applicator]', 'phone: 555-0142'),
      },
    )
  deeds.push(
    {
      who: 'marsh',
      what: "the firm's licence renewed",
      change: after(
        'firms/invented-pest-services.yaml',
        '      - {from: 2025-01-01, until: 2026-12-31}',
        '      - {from: 2027-01-01, until: 2028-12-31}',
      ),
    },
    {
      who: 'okafor',
      what: "the firm's new notes",
      change: after(
        'firms/invented-pest-services.yaml',
        'phone: 555-0100',
        'notes: office closed on Fridays',
      ),
    },
    {
      who: 'marsh',
      what: 'a plan sharpened',
      change: after(
        'plans/german-cockroach.yaml',
        '    tactics: {clean: {do: clean and dry}, trap: {do: find the source with traps}}',
        '  - from: 2026-03-19\n    act-on-one: [everywhere]\n    tactics: {clean: {do: clean and dry}, trap: {do: find the source with traps}}',
      ),
    },
    {
      who: 'reyes',
      what: 'the next school year',
      change: after(
        'district.yaml',
        '  - {from: 2025-09-02, until: 2026-06-12}',
        '  - {from: 2026-09-01, until: 2027-06-11}',
      ),
    },
    {
      who: 'marsh',
      what: 'the next coordinator',
      change: after(
        'district.yaml',
        '  - {from: 2026-03-01, who: marsh}',
        '  - {from: 2026-07-01, who: reyes}',
      ),
    },
  )
  for (const school of ['oak', 'elm'])
    deeds.push(
      {
        who: 'marsh',
        what: `the next contract of ${school}`,
        change: after(
          `sites/${school}/site.yaml`,
          '  - {from: 2026-03-01, contractor: Invented Pest Services, firm: invented-pest-services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}',
          '  - {from: 2026-07-01, contractor: Invented Pest Services, firm: invented-pest-services, routine-visits: monthly, grace: 3 days}',
        ),
      },
      {
        who: 'lind',
        what: `the next site manager of ${school}`,
        change: after(
          `sites/${school}/site.yaml`,
          '  - {from: 2026-03-01, who: lind}',
          '  - {from: 2026-07-01, who: reyes}',
        ),
      },
      {
        who: 'okafor',
        what: `an area of ${school} that was forgotten`,
        change: after(
          `sites/${school}/site.yaml`,
          school === 'oak' ? '  room-1: {kind: classroom, children: yes}' : '  store: {kind: storage}',
          '  dock: {kind: loading-dock, from: 2026-03-20}',
        ),
      },
    )
  return deeds
}
