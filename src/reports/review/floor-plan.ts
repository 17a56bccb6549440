import type { Source } from '../../files/source.js'
import { isoOf } from '../../measure/calendar.js'
import { readMap } from '../map.js'
import type { SiteMap } from '../map-site.js'
import { answered } from './answered.js'
import type { YearFacts } from './facts.js'
import { pickFrom } from './pick.js'
import type { Answer } from './review.js'

export interface FloorPlan {
  readonly answer: Answer
  readonly map: SiteMap | undefined
}

/** The plan of the one site asked for, where floor plans are: where devices stand, what is open, what is not watched. */
export function floorPlan(source: Source, facts: YearFacts): FloorPlan | undefined {
  const { site, asOf } = facts.options
  if (site === undefined || !facts.withParts.has('floor-plan')) return undefined
  const { map, report } = readMap(source, facts.options, site)
  const columns: Readonly<Record<string, readonly string[]>> = {
    devices: ['device', 'marked', 'kind', 'area', 'where'],
    conditions: ['no', 'area', 'what', 'gives', 'owner', 'since', 'due'],
    needs: ['no', 'areas', 'what', 'pest', 'to-add'],
  }
  return {
    answer: answered(facts, {
      id: 'floor-plan',
      question: 'Where do the monitors stand, and what is open there?',
      answer: report.headline,
      tables: Object.entries(columns).flatMap(([table, shown]) =>
        pickFrom(facts, report, { table, columns: shown }),
      ),
      commands: [`doorsweep map ${site} --as-of ${isoOf(asOf)}`],
      points: [],
    }),
    map: map && withoutNames(map, facts),
  }
}

/** What is written on the plan, as it may stand on the page; a page shows no image, so none is laid under it. */
function withoutNames(map: SiteMap, { shown }: YearFacts): SiteMap {
  const { drawing } = map
  return {
    ...map,
    drawing:
      drawing.is === 'drawn' ? { is: 'left out', file: drawing.file, why: 'a page shows no image' } : drawing,
    conditions: map.conditions.map((one) => ({ ...one, what: shown(one.what) })),
  }
}
