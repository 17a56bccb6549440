import type { Random } from '../../measure/seeded-random.js'
import { normal, wholeBetween } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { figures } from './figures.js'
import type { NameMaker } from './names.js'
import { pestModels } from './pests.js'
import type { Series } from './rates.js'
import { drawDiagram, sketchAreas } from './site-plan.js'
import type { Staff } from './staff.js'
import type { Trial } from './trial.js'
import { courseOf, plantedBase } from './trial.js'
import type { DemoTruth, SiteTruth } from './truth.js'
import type { Area, SeriesNow, Site } from './world.js'

/** An invented school with its areas, people and latent rates; nothing stands in it yet. */
export function makeSite(
  number: number,
  random: Random,
  names: NameMaker,
  staff: Staff,
  from: Day,
  truth: DemoTruth,
  trial?: Trial,
): Site {
  const { id, name } = names.site()
  const plan = random.fork('plan')
  const areas = sketchAreas(plan, wholeBetween(plan, 3, 6))
  const nature = random.fork('nature')
  const series = makeSeries(areas, nature, from, trial)
  const siteTruth: SiteTruth = {
    site: id,
    series: series.map((now) => now.series),
    treatments: [],
    repairs: [],
  }
  truth.sites.push(siteTruth)
  const technician = staff.technicians[number % staff.technicians.length] ?? staff.coordinator
  return {
    id,
    name,
    number,
    random: random.fork('work'),
    nature,
    trial,
    technician,
    custodian: staff.hire('custodian'),
    managers: [{ from, who: staff.hire('site-manager') }],
    address: `${wholeBetween(plan, 1, 400)} Invented Lane`,
    areas,
    inRecess: number % 3 !== 2,
    contractFrom: from,
    diagram: drawDiagram(name, areas),
    series,
    sums: new Float64Array(areas.length * pestModels.length),
    devices: new Map(),
    runs: new Map(),
    conditions: [],
    fading: [],
    complaints: [],
    pastComplaints: [],
    tasks: [],
    names: new Map(),
    round: undefined,
    notified: undefined,
    strikes: new Map(),
    truth: siteTruth,
    setUp: undefined,
    setUpFrom: 0,
    nextRoutine: undefined,
    lastVisit: undefined,
    lastStorage: undefined,
  }
}

function makeSeries(areas: readonly Area[], nature: Random, from: Day, trial?: Trial): SeriesNow[] {
  const all: SeriesNow[] = []
  pestModels.forEach((model, pest) => {
    const ofSite = figures.siteSpread * normal(nature)
    const planted = trial?.pests[model.id]
    const places = areas.flatMap((area) => {
      const base = planted ? plantedBase(planted, area.kind) : model.base[area.kind]
      return base === undefined ? [] : [{ area, base }]
    })
    const total = places.reduce((sum, { base }) => sum + base, 0)
    for (const { area, base } of places) {
      const series: Series = {
        area: area.id,
        areaIndex: area.index,
        pest: model.id,
        pestIndex: pest,
        kind: area.kind,
        logBase: planted
          ? Math.log(planted.rate)
          : Math.log(base) + ofSite + figures.areaSpread * normal(nature),
        infestations: [],
        shifts: [],
        ...(trial ? { course: courseOf(trial, model.id, from) } : {}),
      }
      all.push({
        series,
        baseNow: Math.exp(series.logBase),
        rate: 0,
        onsetPerDay: trial ? 0 : ((model.onsets / 365) * base) / total,
        diesOn: Number.POSITIVE_INFINITY,
        regrowsOn: Number.POSITIVE_INFINITY,
      })
    }
  })
  return all
}
