import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import type { ClipboardArea } from '../../src/reports/clipboard.js'
import { clipboardOf, onlyAreas, readClipboard } from '../../src/reports/clipboard.js'
import { byNumber } from '../../src/reports/clipboard-devices.js'
import { day, oakFiles, oakView } from '../ledger/small-site.js'

type Texts = Readonly<Record<string, string>>

const people = { 'people/lind.yaml': 'name: Tor Lind\nroles: [site-manager]\n' }

function clipboard(visits: Texts, others: Texts = {}, asOf = '2026-03-31') {
  return clipboardOf(oakView(visits, { ...people, ...others }, asOf))
}

function area(id: string, visits: Texts, others: Texts = {}, asOf?: string): ClipboardArea {
  const found = clipboard(visits, others, asOf).areas.find((one) => one.id === id)
  if (!found) throw new Error(`there is no area ${id}`)
  return found
}

/** Every device with what it says of the last look. */
function lastLooks({ devices }: ClipboardArea): string[] {
  return devices.flatMap((group) => group.devices.map(({ id, last }) => `${id} ${last}`))
}

const set = (text: string) => ({ '2026-03-01': `set: {${text}}` })
const trap = (id: string, more = '') => `${id}: {kind: sticky-trap, area: kitchen${more}}`

describe('the clipboard of a site', () => {
  it('names the site manager of the day, the complaint log, and the areas in walking order', () => {
    const site = `
name: Oak School
address: 1 Invented Road
site-manager: [{from: 2026-01-01, until: 2026-03-30, who: quill}, {from: 2026-03-31, who: lind}]
complaint-log: front office
contract: []
areas:
  store: {kind: storage, name: Book store, floor: 0, keys: ring 2, let-in-by: librarian}
  annex: {kind: classroom, until: 2026-03-30}
  kitchen: {kind: kitchen, children: yes}
  wing: {kind: classroom, from: 2026-04-01}
`
    const page = clipboard({}, { 'sites/oak/site.yaml': site })
    expect(page).toMatchObject({
      site: 'oak',
      name: 'Oak School',
      address: '1 Invented Road',
      asOf: '2026-03-31',
      siteManager: 'Tor Lind',
      complaintLog: 'front office',
      notExamined: [],
    })
    expect(page.areas.map(({ id }) => id)).toEqual(['store', 'kitchen'])
    expect(page.areas[0]).toMatchObject({
      name: 'Book store',
      floor: 0,
      keys: 'ring 2',
      letInBy: 'librarian',
      usedByChildren: false,
    })
    expect(page.areas[0]?.lookAt).toContain('droppings and rub marks along edges')
    expect(page.areas[1]).toMatchObject({ name: 'kitchen', keys: undefined, usedByChildren: true })
    const before = clipboard({}, { 'sites/oak/site.yaml': site }, '2026-03-30')
    // There is no record of quill, so the id stands.
    expect(before.siteManager).toBe('quill')
    expect(before.areas.map(({ id }) => id)).toEqual(['store', 'annex', 'kitchen'])
  })

  it('says that a site is closed, or that its records have not begun', () => {
    const site = (days: string) => ({
      'sites/oak/site.yaml': `name: Oak School\nsite-manager: [{from: 2026-01-01, who: lind}]\ncomplaint-log: office\ncontract: []\nareas: {kitchen: {kind: kitchen}}\n${days}\n`,
    })
    expect(clipboard({}, site('until: 2026-03-30')).notExamined).toEqual([
      'This site was closed after 2026-03-30.',
    ])
    expect(clipboard({}, site('until: 2026-03-31')).notExamined).toEqual([])
    expect(clipboard({}, site('from: 2026-04-01')).notExamined).toEqual([
      'The records of this site begin on 2026-04-01, after this day.',
    ])
  })

  it('lists complaints that nobody answered and nobody withdrew', () => {
    const complaint = (more: string) => `by: marsh\nfrom: staff\n${more}\n`
    const page = clipboard(
      { '2026-03-05': 'answers: {2026-03-02-marsh: nothing seen}' },
      {
        'sites/oak/complaints/2026-03-02-marsh.yaml': complaint('says: answered'),
        'sites/oak/complaints/2026-03-03-marsh.yaml': complaint('says: taken back\nwithdrawn: it was a toy'),
        'sites/oak/complaints/2026-03-04-marsh.yaml': complaint(
          'area: store\npest: bat\nsays: something flew',
        ),
        'sites/oak/complaints/2026-03-06-marsh.yaml': complaint('other: lacewing\nsays: green and many'),
      },
    )
    expect(page.complaints).toEqual([
      { id: '2026-03-04-marsh', area: 'store', place: 'store', of: 'bat', says: 'something flew' },
      { id: '2026-03-06-marsh', area: undefined, place: undefined, of: 'lacewing', says: 'green and many' },
    ])
    const store = page.areas.find(({ id }) => id === 'store')
    expect(store?.complaints.map(({ id }) => id)).toEqual(['2026-03-04-marsh'])
    // A bat that was only reported already asks for care; the other one is told at the end, in no area.
    expect(store?.cautions.map(({ about }) => about)).toEqual(['bats'])
    expect(page.areas.at(-1)).toMatchObject({ id: '', name: 'No area recorded', kind: undefined })
    expect(page.areas.at(-1)?.complaints.map(({ id }) => id)).toEqual(['2026-03-06-marsh'])
  })

  it('drops nothing that stands or waits where the site has no area', () => {
    const site = `
name: Oak School
site-manager: [{from: 2026-01-01, who: lind}]
complaint-log: front office
contract: []
areas: {kitchen: {kind: kitchen}, annex: {kind: storage, name: Old annex, until: 2026-03-15}}
`
    const page = clipboard(
      {
        '2026-03-01':
          'set: {A1: {kind: sticky-trap, area: annex}}\nconditions: {hole: {new: hole, area: annex}}',
      },
      { 'sites/oak/site.yaml': site },
    )
    expect(page.areas.map(({ id, kind }) => [id, kind])).toEqual([
      ['kitchen', 'kitchen'],
      ['annex', undefined],
    ])
    expect(page.areas[1]?.devices[0]?.devices[0]?.id).toBe('A1')
    expect(page.areas[1]?.conditions[0]?.name).toBe('hole')
    expect(page.areas[1]?.lookAt).toEqual([])
  })

  it('shows only the areas asked for, and says what it left out', () => {
    const whole = clipboard({
      '2026-03-01': 'set: {S1: {kind: snap-trap, area: store}, K1: {kind: sticky-trap, area: kitchen}}',
    })
    const part = onlyAreas(whole, ['kitchen'])
    expect(part.areas).toEqual([whole.areas[0]])
    expect(part.leftOut).toEqual(['room-1', 'store'])
    // The cautions for the mouse trap in the store go with it.
    expect(whole.cautions.map(({ about }) => about)).toEqual([
      'hands',
      'rodent droppings',
      'food lures',
      'pesticides',
    ])
    expect(part.cautions.map(({ about }) => about)).toEqual(['hands', 'pesticides'])
    // In walking order, whatever the order they are asked in.
    expect(onlyAreas(whole, ['store', 'kitchen']).areas.map(({ id }) => id)).toEqual(['kitchen', 'store'])
  })
})

describe('devices', () => {
  it('stand in the area they were last moved to, by kind and number, and not once they are taken up', () => {
    const kitchen = area('kitchen', {
      '2026-03-01': `set: {${['K10', 'K2', 'K1', 'K3'].map((id) => trap(id)).join(', ')}, S1: {kind: snap-trap, area: kitchen}}`,
      '2026-03-08': 'moved: {K1: {area: store}}\ntaken-up: {K3: broken floor}',
    })
    expect(kitchen.devices.map(({ kind, devices }) => [kind, devices.map(({ id }) => id)])).toEqual([
      ['sticky trap', ['K2', 'K10']],
      ['snap trap', ['S1']],
    ])
  })

  it('say what is marked on them, how many traps stand there, what they are for, and when they are out', () => {
    const kitchen = area('kitchen', {
      '2026-03-01': `set:
  ${trap('K1', ', for: [german-cockroach]')}
  ${trap('K2', ', for: [german-cockroach]')}
  ${trap('K3', ', for: [pharaoh-ant], traps: 2, marked-as: "#17", while-pupils-away: yes')}`,
      '2026-03-08': 'picked-up: [K3]',
    })
    // Two of the three are for the one, so that is said once for all.
    expect(kitchen.devices[0]?.for).toEqual(['German cockroach'])
    expect(kitchen.devices[0]?.devices[2]).toEqual({
      id: 'K3',
      markedAs: '#17',
      traps: 2,
      for: ['Pharaoh ant'],
      whilePupilsAway: true,
      pickedUp: '2026-03-08',
      last: 'set 2026-03-01, not looked at yet',
    })
    expect(kitchen.devices[0]?.devices[0]).toMatchObject({ traps: 1, pickedUp: undefined })
  })

  it.each([
    // What a reading says, and what of it is of use when one stands before the device again.
    [
      'sticky-trap',
      '{german-cockroach: {nymphs: 4, adults: 1}, renewed: yes}',
      '5 German cockroach, renewed',
    ],
    ['sticky-trap', '{german-cockroach: 0}', 'none'],
    ['sticky-trap', '{other: earwig}', 'some earwig'],
    ['sticky-trap', '{german-cockroach: 2, other: earwig, other-count: 3}', '2 German cockroach, 3 earwig'],
    ['sticky-trap', '{unusable: wet, renewed: yes}', 'wet, renewed'],
    ['sticky-trap', '{german-cockroach: 7, after-flush: yes}', '7 German cockroach, after flushing'],
    ['snap-trap', '{sprung: empty, reset: yes}', 'sprung without a catch, set again'],
    ['bait-station', '{bait-taken: some}', 'bait gone: some'],
    ['bait-station', '{bait-added: 1 block, product: x}', 'looked at'],
    ['tracking-patch', '{tracks: many}', 'tracks: many'],
    ['termite-station', '{active: no}', 'active: no'],
    ['blocked-entrance', '{block: moved}', 'block moved'],
    ['light-trap', '{lamp: 2026-01-05, house-fly: 1000000}', '1000000 house fly'],
  ])('a %s last read as %s', (kind, reading, says) => {
    const visits = {
      '2026-03-01': `set: {D1: {kind: ${kind}, area: kitchen}}`,
      '2026-03-08': `readings: {D1: ${reading}}`,
    }
    const product = { 'products/x/product.yaml': 'name: Bait X\nkind: pesticide\nregistration: 99999-1\n' }
    expect(lastLooks(area('kitchen', visits, product))).toEqual([`D1 2026-03-08: ${says}`])
  })

  it('that only stood under none had none, also those that count nothing', () => {
    const visits = {
      '2026-03-01': 'set: {K1: {kind: sticky-trap, area: kitchen}, B1: {kind: bait-station, area: kitchen}}',
      '2026-03-08': 'readings: {none: [K1, B1]}',
    }
    expect(lastLooks(area('kitchen', visits))).toEqual(['B1 2026-03-08: none', 'K1 2026-03-08: none'])
  })

  it('that could not be reached still tell what was on them before', () => {
    const visits = {
      ...set(`${trap('K1')}, ${trap('K2')}`),
      '2026-03-08': 'readings: {K1: {german-cockroach: 3}}',
      '2026-03-15': 'readings: {K1: {no-access: cabinet}, K2: {no-access: cabinet}}',
    }
    const kitchen = area('kitchen', visits)
    expect(lastLooks(kitchen)).toEqual([
      'K1 2026-03-15: not reached; 2026-03-08: 3 German cockroach',
      'K2 2026-03-15: not reached; set 2026-03-01, not looked at yet',
    ])
  })

  it('ask for what a reading of their kind can hold, and why they were not read', () => {
    const asks = (kind: string) =>
      area('kitchen', set(`D1: {kind: ${kind}, area: kitchen}`)).devices[0]?.asks.map(({ write }) => write)
    expect(asks('sticky-trap')).toEqual(['none', 'count, by pest and stage', 'renewed', 'not read, why'])
    expect(asks('snap-trap')).toEqual([
      'none',
      'count, by pest and stage',
      'set again',
      'sprung, empty',
      'not read, why',
    ])
    expect(asks('multiple-catch-trap')).toContain('emptied')
    expect(asks('bait-station')).toEqual(['bait gone', 'bait added', 'not read, why'])
    expect(asks('termite-station')).toEqual(['active', 'bait gone', 'bait added', 'not read, why'])
    expect(asks('tracking-patch')).toEqual(['tracks', 'not read, why'])
    expect(asks('light-trap')).toContain('lamp dated')
    expect(asks('blocked-entrance')).toEqual(['block', 'not read, why'])
  })

  it('are in the order of their numbers, however large', () => {
    const big = '9'.repeat(400)
    const ids = ['K10', `K${big}`, 'K2', 'D1-10', 'K02', 'D1-2', 'K', 'K2a', `K1${big}`]
    expect([...ids].sort(byNumber)).toEqual([
      'D1-2',
      'D1-10',
      'K',
      'K02',
      'K2',
      'K2a',
      'K10',
      `K${big}`,
      `K1${big}`,
    ])
  })
})

describe('conditions', () => {
  it('are those still open, and those repaired that nobody looked at since', () => {
    const kitchen = area(
      'kitchen',
      {
        '2026-03-01': `conditions:
  drip: {new: drip under sink, area: kitchen, owner: maintenance, by: 2026-03-20}
  crack: {new: crack in tiles, area: kitchen}
  crumbs: {new: crumbs, area: kitchen}
  screen: {new: screen torn, area: kitchen}`,
        '2026-03-08':
          'conditions: {crumbs: {closed: swept}, drip: {still: worse, owner: custodial, by: 2026-03-25}}',
        '2026-03-15': 'conditions: {screen: {holds: good}}',
      },
      {
        'sites/oak/repairs/2026-03-10-marsh.yaml': 'by: marsh\nmends: [crack, screen]\ndone: put right\n',
      },
    )
    expect(kitchen.conditions).toEqual([
      {
        name: 'drip',
        area: 'kitchen',
        says: 'drip under sink',
        since: '2026-03-01',
        owner: 'custodial',
        due: '2026-03-25',
        repairedOn: undefined,
      },
      {
        name: 'crack',
        area: 'kitchen',
        says: 'crack in tiles',
        since: '2026-03-01',
        owner: undefined,
        due: undefined,
        repairedOn: '2026-03-10',
      },
    ])
  })

  it('are called by their full name where the short one could mean another', () => {
    const kitchen = area('kitchen', {
      '2026-03-01': 'conditions: {drip: {new: sink, area: kitchen}, gap: {new: door, area: kitchen}}',
      '2026-03-08': 'conditions: {drip: {new: ice machine, area: kitchen}}',
    })
    expect(kitchen.conditions.map(({ name, says }) => [name, says])).toEqual([
      ['2026-03-01-okafor/drip', 'sink'],
      ['gap', 'door'],
      ['2026-03-08-okafor/drip', 'ice machine'],
    ])
  })
})

describe('care', () => {
  it('is asked for by what was caught last, by what was seen of late, and by traps for rodents', () => {
    const visits = {
      '2026-01-01': 'found: {nest: {pest: paper-wasp, area: store, evidence: nest}}',
      '2026-03-01': `set: {${trap('K1')}, ${trap('K2')}}`,
      '2026-03-08': 'readings: {K1: {pharaoh-ant: 3}, K2: {pharaoh-ant: 3, renewed: yes}}',
      '2026-03-15': 'readings: {K1: {no-access: shelf}}',
    }
    const about = (id: string, asOf: string) => area(id, visits, {}, asOf).cautions.map((one) => one.about)
    expect(about('kitchen', '2026-03-31')).toEqual(['pharaoh ant'])
    // 2026-01-01 is 89 days before 2026-03-31 (30 + 28 + 31), and 90 before 2026-04-01.
    expect(about('store', '2026-03-31')).toEqual(['stinging'])
    expect(about('store', '2026-04-01')).toEqual([])
    expect(area('store', set('S1: {kind: snap-trap, area: store}')).cautions.map((one) => one.about)).toEqual(
      ['rodent droppings', 'food lures'],
    )
  })
})

describe('reading it from a ledger', () => {
  const visits = { '2026-03-01': `set: {${trap('K1')}}`, '2026-04-01': 'inspected: [kitchen]' }
  const asOf = { asOf: day('2026-03-31'), asOfIsToday: false }
  const read = (others: Texts, site = 'oak') =>
    readClipboard(memorySource(oakFiles(visits, { ...people, ...others })), asOf, site)

  it('leaves out what is later, and says so', () => {
    expect(read({})).toMatchObject({
      incomplete: false,
      clipboard: { notExamined: ['One record dated after the as-of day was not looked at.'] },
    })
  })

  it('makes no page of a site with a record that cannot be used', () => {
    const {
      clipboard: page,
      incomplete,
      notExamined,
    } = read({
      'sites/oak/visits/2026-03-05-okafor.yaml': 'inspected: kitchen\n',
    })
    expect([page, incomplete]).toEqual([undefined, true])
    expect(notExamined[0]).toContain('sites/oak/visits/2026-03-05-okafor.yaml cannot be used')
  })

  it('is not touched by another site, and says on the page which record of the district is missing', () => {
    const { clipboard: page, incomplete } = read({
      'people/lind.yaml': 'name: [Tor]\n',
      'sites/elm/site.yaml': '[',
    })
    expect(incomplete).toBe(true)
    expect(page?.siteManager).toBe('lind')
    expect(page?.notExamined).toEqual([
      'person lind: the record cannot be used.',
      'One record dated after the as-of day was not looked at.',
    ])
  })

  it('does not depend on the order of the files', () => {
    const files = oakFiles(visits, people)
    const turned = new Map([...files].reverse())
    expect(readClipboard(memorySource(turned), asOf, 'oak')).toEqual(
      readClipboard(memorySource(files), asOf, 'oak'),
    )
  })
})
