import type { MapDevice, SiteMap } from '../reports/map-site.js'
import { mapCautions, mapHeadline, mapTitle, mapUntold } from '../reports/map-words.js'
import { boxesOf } from './map-boxes.js'
import { el, faintInk, linesWithin, px, textAt } from './map-elements.js'
import { legendOf } from './map-legend.js'
import { patterns } from './map-marks.js'
import type { Plan } from './map-plan.js'
import { frameFor, planOf, scaleBar } from './map-plan.js'
import { shadesOf } from './map-shades.js'
import { sheetsOf } from './map-sheets.js'
import type { Element } from './xml.js'
import { xmlText } from './xml.js'

export interface MapInPage {
  /** Begins every id in the picture, so that two pictures can stand in one page: a letter, then letters, digits or `-`. */
  readonly prefix: string
}

const margin = 24

/** A map as an SVG document of its own. Its text alternative are the tables of the same report. */
export function mapSvg(map: SiteMap): string {
  return xmlText(picture(map, ''))
}

/** The same as an element to put into an HTML page; as wide as there is room for. A page that allows images of `data:` shows the school's own drawing too. */
export function mapSvgElement(map: SiteMap, { prefix }: MapInPage): string {
  const document = xmlText(picture(map, prefix))
  return document.slice(document.indexOf('\n') + 1)
}

function picture(map: SiteMap, prefix: string): Element {
  const drawn = { shades: shadesOf(map), prefix }
  const { sheets, bounds, offPlan } = sheetsOf(map)
  const width = pageWidth(Math.max(0, ...sheets.map(({ devices }) => devices.length)))
  const inner = width - 2 * margin
  const elements: Element[] = []
  let y = margin
  const write = (text: string, size: number, more = {}) => {
    for (const line of linesWithin(text, size, inner)) {
      y += size * 1.35
      elements.push(textAt(margin, y, size, line, more))
    }
  }
  write(mapTitle(map), 20, { 'font-weight': 'bold' })
  const caught = map.pest === undefined ? '' : `; catches from ${map.period.from} to ${map.period.to}`
  write(`As of ${map.asOf}${caught}`, 12, { fill: faintInk })
  write(mapHeadline(map), 13)
  y += 14
  const plans: Plan[] = []
  for (const sheet of bounds === null ? [] : sheets) {
    if (!bounds) continue
    if (sheet.title !== undefined) write(sheet.title, 15, { 'font-weight': 'bold' })
    y += 14
    const frame = frameFor(bounds, margin + 12, y, inner - 24)
    const plan = planOf(map, sheet, frame, drawn)
    plans.push(plan)
    elements.push(...plan.elements)
    y += frame.box.height + 34
    elements.push(...scaleBar(frame, y - 8, map.unit))
    y += 10
  }
  const crowdedOut = plans.flatMap((plan) => plan.crowdedOut)
  const boxes = boxesOf(map, { boxed: offPlan, crowdedOut }, { x: margin, y: y + 34, width: inner }, drawn)
  if (boxes.height > 0) {
    write('Not to scale', 15, { 'font-weight': 'bold' })
    elements.push(...boxes.elements)
    y += boxes.height + 24
  }
  const joined = <T>(of: (plan: Plan) => readonly T[]) => plans.flatMap(of)
  y += 12
  const legend = legendOf(
    map,
    {
      numbered: byNumber([...joined(({ numbered }) => numbered), ...boxes.numbered]),
      unlabelled: joined(({ unlabelled }) => unlabelled),
      unnamed: joined(({ unnamed }) => unnamed),
      displaced: plans.reduce((sum, { displaced }) => sum + displaced, 0),
      boxed: boxes.height > 0,
    },
    [...mapUntold(map), ...mapCautions(map)],
    { x: margin, y, width: inner },
    drawn,
  )
  y += legend.height + margin
  return frameOf(map, prefix, width, y, [...elements, ...legend.elements])
}

function frameOf(map: SiteMap, prefix: string, width: number, height: number, content: readonly Element[]) {
  const [title, desc] = [`${prefix}title`, `${prefix}desc`]
  const isAlone = prefix === ''
  return el(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${px(width)} ${px(height)}`,
      width: isAlone ? px(width) : '100%',
      height: isAlone ? px(height) : undefined,
      'font-family': 'sans-serif',
      direction: 'ltr',
      role: 'img',
      'aria-labelledby': `${title} ${desc}`,
    },
    [
      el('title', { id: title }, mapTitle(map)),
      el(
        'desc',
        { id: desc },
        `${mapHeadline(map)} Every number of this picture stands in the tables of: doorsweep map ${map.site} --format text.`,
      ),
      el('defs', {}, [...patterns(prefix), ...underlay(map, prefix)]),
      el('rect', { width: '100%', height: '100%', fill: '#ffffff' }),
      ...content,
    ],
  )
}

/** The school's own drawing, one by one large, to be laid under each plan at its place; pale, so that the shapes stand out. */
function underlay({ drawing }: SiteMap, prefix: string): Element[] {
  if (drawing.is !== 'drawn') return []
  return [
    el('image', {
      id: `${prefix}drawing`,
      width: 1,
      height: 1,
      opacity: 0.7,
      preserveAspectRatio: 'none',
      href: `data:${drawing.type};base64,${drawing.base64}`,
    }),
  ]
}

/** Wider where many devices are to find room on one sheet. */
function pageWidth(devices: number): number {
  return Math.min(2400, Math.max(1000, Math.round((1000 * Math.sqrt(devices / 80)) / 50) * 50))
}

const byNumber = (devices: readonly MapDevice[]) => [...devices].sort((a, b) => a.no - b.no)
