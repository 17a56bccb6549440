import { dateText } from './days.js'
import { contractorId } from './staff.js'
import type { DemoFile, Site } from './world.js'
import type { YamlMap } from './yaml.js'
import { mapText } from './yaml.js'

/** sites/<id>/site.yaml as it stands now. */
export function siteFile(site: Site): DemoFile {
  const catchers = site.number < 2
  const areas = Object.fromEntries(
    site.areas.map((area) => {
      const [left, top, right, bottom] = area.box
      const facts: YamlMap = {
        name: area.name,
        kind: area.kind,
        floor: 1,
        extent: `${(right - left) * (bottom - top)} ft2`,
        children: area.children ? 'yes' : 'no',
        outline: [
          [left, top],
          [right, top],
          [right, bottom],
          [left, bottom],
        ],
      }
      return [area.id, facts]
    }),
  )
  const runs = Object.fromEntries(
    [...site.runs].map(([name, run]) => [
      name,
      {
        along: run.along,
        devices: run.devices,
        'active-control':
          run.active.length === 0
            ? undefined
            : run.active.map((span) => ({
                from: dateText(span.from),
                until: span.until === undefined ? undefined : dateText(span.until),
              })),
      },
    ]),
  )
  const record: YamlMap = {
    name: site.name,
    address: site.address,
    'site-manager': site.managers.map((span) => ({
      from: dateText(span.from),
      until: span.until === undefined ? undefined : dateText(span.until),
      who: span.who.id,
    })),
    'complaint-log': 'front office, beside the key board',
    diagram: { file: 'diagram.svg', sha256: site.diagram.sha256, scale: 'one unit = 1 ft', unit: 'ft' },
    contract: [
      {
        from: dateText(site.contractFrom),
        contractor: 'Invented Pest Services',
        firm: contractorId,
        'routine-visits': 'monthly',
        'in-recess': site.inRecess ? 'yes' : 'no',
        checks: {
          'sticky-trap': 'monthly',
          'glue-board': 'monthly',
          'snap-trap': '1 day',
          'multiple-catch-trap': catchers ? '1 week' : undefined,
          'bait-station': 'monthly',
          'light-trap': 'monthly',
          'pheromone-trap': 'monthly',
          'sticky-card': 'monthly',
        },
        'complaint-days': 2,
      },
    ],
    areas,
    runs,
    notes: 'An invented school.',
  }
  return { path: `sites/${site.id}/site.yaml`, text: mapText(record) }
}
