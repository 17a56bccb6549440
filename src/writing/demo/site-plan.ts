import { createHash } from 'node:crypto'
import type { Random } from '../../measure/seeded-random.js'
import { wholeBetween } from '../../measure/seeded-random.js'
import type { Area } from './world.js'

type Sketch = Omit<Area, 'index'>

/** Areas of one school in walking order, with their boxes on a property diagram in feet. */
export function sketchAreas(random: Random, classrooms: number): Area[] {
  const areas: Sketch[] = []
  let across = 0
  const top = 24
  const wing = (
    id: string,
    name: string,
    kind: Area['kind'],
    width: number,
    depth: number,
    children = false,
  ) => {
    const right = across + width + wholeBetween(random, 0, 5)
    areas.push({ id, name, kind, children, box: [across, top, right, top + depth] })
    across = right
  }
  wing('dock', 'Loading dock', 'loading-dock', 36, 20)
  wing('kitchen', 'Main kitchen', 'kitchen', 44, 30)
  wing('dry-store', 'Dry food store', 'food-storage', 34, 18)
  wing('dining', 'Dining hall', 'dining', 60, 36, true)
  wing('custodial', 'Custodial room', 'custodial', 34, 14)
  wing('boiler', 'Boiler room', 'utility', 36, 24)
  const width = across
  areas.push({
    id: 'north-side',
    name: 'North side',
    kind: 'outdoors',
    children: false,
    box: [0, 8, width, 24],
  })
  areas.push({ id: 'dumpsters', name: 'Dumpsters', kind: 'waste', children: false, box: [0, 0, 40, 8] })
  across = 0
  const row = (id: string, name: string, kind: Area['kind'], wide: number, children: boolean) => {
    areas.push({ id, name, kind, children, box: [across, 70, across + wide, 98] })
    across += wide
  }
  row('office', 'Front office', 'office', 30, false)
  for (let room = 1; room <= classrooms; room++) {
    row(`room-${room}`, `Room ${room}`, 'classroom', 28 + wholeBetween(random, 0, 4), true)
  }
  row('restrooms', 'Restrooms', 'restroom', 22, true)
  areas.push({
    id: 'playground',
    name: 'Playground',
    kind: 'playground',
    children: true,
    box: [0, 98, Math.max(width, across), 140],
  })
  return areas.map((area, index) => ({ ...area, index }))
}

/** The property diagram as a drawing: one unit is one foot. */
export function drawDiagram(
  name: string,
  areas: readonly Area[],
): { readonly text: string; readonly sha256: string } {
  const width = Math.max(...areas.map((area) => area.box[2])) + 4
  const shapes = areas.map((area) => {
    const [left, top, right, bottom] = area.box
    const middle = (left + right) / 2
    return `  <rect x="${left}" y="${top}" width="${right - left}" height="${bottom - top}" fill="none" stroke="black" stroke-width="0.5"/>
  <text x="${middle}" y="${(top + bottom) / 2}" font-size="4" text-anchor="middle">${area.name}</text>`
  })
  const text = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="-2 -2 ${width} 146">
  <title>${name}: invented property diagram</title>
${shapes.join('\n')}
</svg>
`
  return { text, sha256: createHash('sha256').update(text, 'utf8').digest('hex') }
}
