import { describe, expect, it } from 'vitest'
import { mapHtml } from '../../src/output/map-html.js'
import { rateWords } from '../../src/output/map-shades.js'
import { mapSvg, mapSvgElement } from '../../src/output/map-svg.js'
import { grid, readingsOf, setOf } from '../reports/hotspots-grid.js'
import { oakMap, oakSite, pngOf, readOak, threeAreas } from '../reports/map-ledgers.js'
import { allIn, cornersOf, devicesIn, labelsIn, overlapsIn, pictureOf, textIn } from './map-picture.js'
import { readXml } from './read-xml.js'

const roach = { pest: 'german-cockroach', from: '2026-03-01', to: '2026-04-01' }
const trap = (at: string) => `{kind: sticky-trap, area: kitchen, for: [german-cockroach], at: ${at}}`
const visits = {
  '2026-03-01': `set: {T1: ${trap('[5, 5]')}, T2: ${trap('[10, 2.5]')}, T3: ${trap('[15, 5]')}, S1: {kind: light-trap, area: store, at: [30, 5]}}`,
  '2026-03-31': 'readings: {none: [T2], T1: {german-cockroach: 7}}',
}

describe('a plan to scale', () => {
  const picture = pictureOf(oakMap(visits, oakSite(threeAreas), roach))
  const outlines = allIn(picture).filter(
    ({ name, attributes }) => name === 'polygon' && attributes['fill-rule'] === 'evenodd',
  )
  const kitchen = cornersOf(outlines[0] ?? picture)
  const top = kitchen[0]?.[1] ?? Number.NaN

  it('is as wide as the page: 928 pixels for 40 ft, 23.2 for one', () => {
    // 1000 wide, less 24 of margin and 12 of air on both sides.
    expect(kitchen).toEqual([
      [36, top],
      [500, top],
      [500, top + 232],
      [36, top + 232],
    ])
  })

  it('has every device where its record says', () => {
    const at = Object.fromEntries(
      devicesIn(picture).map(({ says, middle }) => [says.split(' ')[1]?.replace(',', ''), middle]),
    )
    const near = (x: number, y: number) => [expect.closeTo(x, 1), expect.closeTo(top + y, 1)]
    // 5 · 23.2 = 116; 10 · 23.2 = 232; 2.5 · 23.2 = 58; 15 · 23.2 = 348; 30 · 23.2 = 696; and 36 to the left.
    expect(at).toEqual({ T1: near(152, 116), T2: near(268, 58), T3: near(384, 116), S1: near(732, 116) })
  })

  it('has a bar that is as long as it says', () => {
    const bar = allIn(picture).find(({ attributes }) => /^M36 .*v5h116v-5$/.test(attributes.d ?? ''))
    // 5 ft; 10 would be 232 pixels, more than the 180 that a bar may have.
    expect(bar).toBeDefined()
    expect(allIn(picture).map(textIn)).toContain('5 ft')
  })

  it('says beside each device what the table says of it', () => {
    const { map, report } = readOak(visits, oakSite(threeAreas), roach)
    const rows = report.tables.find(({ id }) => id === 'devices')?.rows ?? []
    const labels = labelsIn(pictureOf(map ?? oakMap({}))).map(({ text }) => text)
    // 7 in 30 nights are 1.63 a week.
    expect(labels).toEqual(['T1 1.6', 'T2 0', 'T3 ?', 'S1'])
    expect(labels.slice(0, 2)).toEqual(
      rows.slice(0, 2).map(({ cells }) => `${cells.device} ${rateWords(Number(cells.rate))}`),
    )
  })

  it('tells a zero from what was not measured and from what tells nothing, by fill and by line', () => {
    const [caught, zero, unread, other] = devicesIn(picture).map(({ shape }) => shape.attributes)
    expect(caught).toMatchObject({ fill: '#153a6b' })
    expect(zero).toMatchObject({ fill: '#ffffff', 'stroke-width': '1.4' })
    expect(zero).not.toHaveProperty('stroke-dasharray')
    expect(unread).toMatchObject({ fill: 'url(#not-measured)', 'stroke-dasharray': '2.5 2' })
    expect(other).toMatchObject({ fill: '#ffffff', 'stroke-width': '0.8' })
  })

  it('has what is not to scale in boxes that say so', () => {
    const words = allIn(picture).map(textIn)
    expect(words).toEqual(expect.arrayContaining(['Not to scale', '3 hall', 'no outline that can be drawn']))
  })

  it('explains every shape, fill and mark it uses', () => {
    const words = allIn(picture).map(textIn)
    expect(words).toEqual(
      expect.arrayContaining([
        'sticky trap',
        'light trap',
        'above 0 to 0.25 per trap-week',
        'above 0.25 to 0.5 per trap-week',
        'above 0.5 to 1 per trap-week',
        'above 1 to 2 per trap-week',
        '0: looked at, none caught',
        '?: not measured, which is no zero',
        'areas are numbered in walking order',
        'box with a dashed edge: not to scale',
      ]),
    )
  })

  it('has a name and an alternative for whoever cannot see it', () => {
    expect(picture.attributes).toMatchObject({ role: 'img', 'aria-labelledby': 'title desc' })
    const [title, desc] = picture.children
    expect([title?.name, title?.attributes.id, title?.text]).toEqual([
      'title',
      'title',
      'Map of Oak School: German cockroach',
    ])
    expect([desc?.name, desc?.attributes.id]).toEqual(['desc', 'desc'])
    expect(desc?.text).toContain('4 devices stand in 3 areas; 1 of 2 devices that measured it caught')
    expect(desc?.text).toContain('doorsweep map oak --format text')
  })
})

describe('many devices', () => {
  const traps = (many: number, at: (n: number) => string) =>
    setOf(
      Array.from(
        { length: many },
        (_, n) => `T${n + 1}: {kind: sticky-trap, area: kitchen, for: [german-cockroach]${at(n)}}`,
      ),
    )
  const room = oakSite('kitchen: {kind: kitchen, outline: [[0, 0], [40, 0], [40, 30], [0, 30]]}')

  it.each([
    [400, 'two feet apart', (n: number) => `, at: [${1 + 2 * (n % 20)}, ${1 + Math.floor(n / 20)}]`],
    [
      400,
      'a few inches apart',
      (n: number) => `, at: [${(5 + (n % 20) / 4).toFixed(2)}, ${5 + Math.floor(n / 20) / 4}]`,
    ],
    [60, 'on one spot', () => ', at: [5, 5]'],
    [400, 'without a position', () => ''],
  ])('%d %s: each is drawn once, and nothing lies over anything', (many, _, at) => {
    const map = oakMap(
      { '2026-03-01': traps(many, at), '2026-03-31': readingsOf(many, (n) => (n * 7) % 13) },
      room,
      roach,
    )
    const picture = pictureOf(map)
    const devices = devicesIn(picture)
    expect(devices.map(({ says }) => Number(/^n(\d+) /.exec(says)?.[1])).sort((a, b) => a - b)).toEqual(
      Array.from({ length: many }, (_, n) => n + 1),
    )
    const labels = labelsIn(picture)
    expect(overlapsIn([...devices, ...labels].map(({ box }) => box))).toEqual([])
    // Each is named, has its number, or is counted among those that are neither.
    const words = allIn(picture).map(textIn).join('\n')
    const bare = Number(
      /(\d+) devices have no room even for a number/.exec(words.replace(/\n/g, ' '))?.[1] ?? 0,
    )
    expect(labels.length + bare).toBe(many)
  })

  it('numbers what has no room for a name, and lists whose numbers they are', () => {
    const map = oakMap({ '2026-03-01': traps(20, () => ', at: [20, 15]') }, room, roach)
    const picture = pictureOf(map)
    const numbers = labelsIn(picture).flatMap(({ text }) => /^n\d+$/.exec(text)?.[0] ?? [])
    expect(numbers.length).toBeGreaterThan(0)
    const listed = allIn(picture)
      .map(textIn)
      .flatMap((text) => /^(n\d+): T\d+ \?$/.exec(text)?.[1] ?? [])
    expect([...listed].sort()).toEqual([...numbers].sort())
  })

  it('shades differ in grey as well: each is darker than the one before, and none is red or green', () => {
    const counts = [0, 1, 2, 4, 8]
    const map = oakMap(
      {
        '2026-03-01': traps(5, (n) => `, at: [${5 + 5 * n}, 5]`),
        '2026-03-31': readingsOf(5, (n) => counts[n - 1] ?? 0),
      },
      room,
      roach,
    )
    const fills = devicesIn(pictureOf(map)).map(({ shape }) => shape.attributes.fill ?? '')
    const rgb = fills.map((fill) => [1, 3, 5].map((at) => Number.parseInt(fill.slice(at, at + 2), 16)))
    // Rec. 601 luma.
    const grey = rgb.map(([r = 0, g = 0, b = 0]) => 0.299 * r + 0.587 * g + 0.114 * b)
    expect(new Set(fills).size).toBe(5)
    for (const [at, one] of grey.entries()) if (at > 0) expect((grey[at - 1] ?? 0) - one).toBeGreaterThan(20)
    for (const [r = 0, g = 0, b = 0] of rgb) expect(b >= g && g >= r).toBe(true)
  })
})

describe('floors', () => {
  const areas = (atticAt: number) => `
kitchen: {kind: kitchen, outline: [[0, 0], [20, 0], [20, 10], [0, 10]]}
attic: {kind: storage, floor: 2, outline: [[${atticAt}, 0], [${atticAt + 20}, 0], [${atticAt + 20}, 10], [${atticAt}, 10]]}
yard: {kind: playground, outline: [[0, 12], [20, 12], [20, 20], [0, 20]]}
`
  const titlesOf = (atticAt: number) =>
    allIn(pictureOf(oakMap(visits, oakSite(areas(atticAt)))))
      .map(textIn)
      .filter((text) => /^Floor/.test(text))

  it('that lie over one another have a sheet each, the grounds with the ground floor', () => {
    expect(titlesOf(0)).toEqual(['Floor 1 and grounds', 'Floor 2'])
  })

  it('that are drawn side by side share one', () => {
    expect(titlesOf(25)).toEqual([])
  })
})

describe('places and runs', () => {
  const corner = new Set([1, 2, 6, 7])
  const planted = grid({ area: (at) => (corner.has(at) ? 'kitchen' : 'store') })

  it('a circle goes about the devices of a place: 10 · √2 ft from T1, and 13 pixels of air', () => {
    const map = oakMap({
      '2026-03-01': setOf(planted),
      '2026-03-31': readingsOf(20, (at) => (corner.has(at) ? 10 : 1)),
    })
    const picture = pictureOf(map)
    const middles = devicesIn(picture).map(({ says, middle }) => [says.split(' ')[1], middle] as const)
    const middleOf = (id: string) =>
      middles.find(([name]) => name === `${id},`)?.[1] ?? [Number.NaN, Number.NaN]
    const foot = (middleOf('T2')[0] - middleOf('T1')[0]) / 10
    const circle = allIn(picture).find(
      ({ attributes }) => attributes['stroke-dasharray'] === '9 4' && attributes.r,
    )
    expect([circle?.attributes.cx, circle?.attributes.cy].map(Number)).toEqual(
      middleOf('T1').map((one) => expect.closeTo(one, 1)),
    )
    expect(Number(circle?.attributes.r)).toBeCloseTo(10 * Math.SQRT2 * foot + 13, 1)
    expect(allIn(picture).map(textIn)).toEqual(
      expect.arrayContaining(['p1', 'p1 German cockroach, sticky trap: 40 caught by 4']),
    )
  })
})

describe('whatever the records hold', () => {
  const nasty = `<script>alert(1)</script> & ' " ]]> \u202eevil \u05e9\u05dc\u05d5\u05dd \u{1f400}\ud800 \u0007\uffff`
  const tame = oakMap(
    {
      '2026-03-01': `set: {T1: {kind: sticky-trap, area: kitchen, at: [5, 5], marked-as: Nasty}, T2: {kind: sticky-trap, area: hall, marked-as: Nasty}}\nconditions: {a: {new: Nasty, area: kitchen}}`,
    },
    oakSite(
      `kitchen: {kind: kitchen, name: Nasty, outline: [[0, 0], [20, 0], [20, 10], [0, 10]]}\nhall: {kind: dining, name: Nasty}`,
    ),
    roach,
  )

  // Fields refuse some of it; whatever a field may come to hold must not reach the picture as markup.
  const hostile = JSON.parse(
    JSON.stringify(tame).replaceAll('Nasty', JSON.stringify(nasty).slice(1, -1)),
  ) as typeof tame

  it('is text and never markup, and the document stays well formed', () => {
    const svg = mapSvg(hostile)
    const ours = 'circle defs desc g line path pattern polygon rect svg text title tspan'.split(' ')
    const names = allIn(readXml(svg)).map(({ name }) => name)
    expect(names.filter((name) => !ours.includes(name))).toEqual([])
    expect(svg).not.toMatch(/<script|\u202e|\u0007/)
    expect(svg).toContain('&lt;script&gt;')
  })

  it.each([
    ['nothing at all', oakMap({}, oakSite('kitchen: {kind: kitchen}'))],
    ['one device and no outline', oakMap({ '2026-03-01': `set: {T1: ${trap('[5, 5]')}}` }, {}, roach)],
    [
      'a position far away',
      oakMap({ '2026-03-01': `set: {T1: ${trap('[5, 5]')}, T2: ${trap('[999999999, 5]')}}` }, {}, roach),
    ],
    [
      'negative positions',
      oakMap({ '2026-03-01': `set: {T1: ${trap('[-5, -5]')}, T2: ${trap('[-500, 5]')}}` }, {}, roach),
    ],
    [
      'a flat outline and a thin one',
      oakMap(
        visits,
        oakSite(
          'kitchen: {kind: kitchen, outline: [[0, 0], [20, 0], [20, 0.001], [0, 0.001]]}\nstore: {kind: storage, outline: [[0, 0], [0.001, 0], [0.001, 900], [0, 900]]}',
        ),
        roach,
      ),
    ],
    [
      'a bow tie',
      oakMap(
        visits,
        oakSite('kitchen: {kind: kitchen, outline: [[0, 0], [10, 10], [10, 0], [0, 10]]}'),
        roach,
      ),
    ],
  ])('%s gives a picture of finite numbers', (_, map) => {
    const svg = mapSvg(map)
    expect(svg).not.toMatch(/NaN|Infinity|undefined|null/)
    const [, , width, height] = (readXml(svg).attributes.viewBox ?? '').split(' ').map(Number)
    expect(width).toBe(1000)
    expect(height).toBeGreaterThan(100)
    expect(height).toBeLessThan(5000)
  })
})

describe('a drawing', () => {
  const png = pngOf(480, 180)
  const map = oakMap(
    visits,
    {
      ...oakSite(threeAreas, 'diagram: {file: plan.png, unit: ft, corners: [[-4, -4], [44, 14]]}'),
      'sites/oak/plan.png': png,
    },
    roach,
  )

  it('lies under the outlines, with its corners where they are said to be', () => {
    const picture = pictureOf(map)
    const [image] = allIn(picture).filter(({ name }) => name === 'image')
    expect(image?.attributes.href).toBe(`data:image/png;base64,${Buffer.from(png).toString('base64')}`)
    const all = allIn(picture)
    const use = all.findIndex(({ name }) => name === 'use')
    const outline = all.findIndex(({ attributes }) => attributes['fill-rule'] === 'evenodd')
    expect([use > 0, use < outline]).toEqual([true, true])
    // 928 pixels for 48 ft: 19.333 for one; the kitchen begins 4 ft in, at 36 + 77.33.
    const [x = Number.NaN, y = Number.NaN] = cornersOf(all[outline] ?? picture)[0] ?? []
    expect(x).toBeCloseTo(113.33, 2)
    expect(all[use]?.attributes.transform).toBe(
      `translate(36 ${(y - 77.33).toFixed(2).replace(/\.?0+$/, '')}) scale(928 348)`,
    )
  })

  it('is left out of a page, which shows no image at all, and that is said', () => {
    const { report } = readOak(visits, oakSite(threeAreas), roach)
    const page = mapHtml(map, report, { showWork: false })
    expect(page).not.toContain('<image')
    expect(page.replace(/\s+/g, ' ')).toContain('The drawing plan.png is not laid under the map')
    expect(page).toContain('id="map-title"')
  })
})

describe('a map in a page', () => {
  const map = oakMap(visits, oakSite(threeAreas), roach)

  it('has no declaration, and ids that begin as asked and are its own', () => {
    const [one, other] = [mapSvgElement(map, { prefix: 'a-' }), mapSvgElement(map, { prefix: 'b-' })]
    expect([one.startsWith('<svg '), one.includes('<?xml')]).toEqual([true, false])
    const idsOf = (text: string) => [...text.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id ?? '')
    const ids = [...idsOf(one), ...idsOf(other)]
    expect(new Set(ids).size).toBe(ids.length)
    expect(idsOf(one).every((id) => id.startsWith('a-'))).toBe(true)
    const used = [...one.matchAll(/url\(#([^)]+)\)/g)].map(([, id]) => id ?? '')
    expect(used.length).toBeGreaterThan(0)
    expect(used.every((id) => idsOf(one).includes(id))).toBe(true)
  })

  it('is the same bytes each time', () => {
    expect(mapSvg(oakMap(visits, oakSite(threeAreas), roach))).toBe(mapSvg(map))
  })
})

it.each([
  [0, '0'],
  [0.001, '<0.01'],
  [0.0449, '0.045'],
  [1.633, '1.6'],
  [12.34, '12'],
  [1234, '1200'],
])('a rate of %d is written %s', (rate, words) => {
  expect(rateWords(rate)).toBe(words)
})
