import { gamma } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { figures } from './figures.js'
import { pestModel, pestModels } from './pests.js'
import {
  begin,
  dayFactor,
  dayOfYear,
  levelOf,
  runningInfestation,
  seasonFactor,
  turnToFall,
  turnToGrowth,
} from './rates.js'
import type { SeriesNow, Site } from './world.js'

const meanSeason = pestModels.map((_, pest) => {
  let sum = 0
  for (let day = 1; day <= 365; day++) sum += seasonFactor(pest, day)
  return sum / 365
})

/** One day of nature at a site: infestations begin, grow, fall and end; every rate is added to its sum. */
export function liveThroughDay(site: Site, day: Day): void {
  const yearDay = dayOfYear(day)
  for (const now of site.series) {
    const pest = now.series.pestIndex
    const season = dayFactor(now.series, day, yearDay)
    const level = levelToday(site, now, day, season / (meanSeason[pest] ?? 1))
    now.rate = now.baseNow * season * (1 + level)
    const cell = now.series.areaIndex * pestModels.length + pest
    site.sums[cell] = (site.sums[cell] ?? 0) + now.rate
  }
}

function levelToday(site: Site, now: SeriesNow, day: Day, season: number): number {
  const running = runningInfestation(now.series)
  if (!running) {
    if (site.nature.next() >= now.onsetPerDay * season) return 0
    const model = pestModel(now.series.pestIndex)
    begin(now.series, day, model)
    now.diesOn =
      model.lasts === undefined
        ? Number.POSITIVE_INFINITY
        : day + 14 + Math.round(gamma(site.nature, 3, model.lasts / 3))
    now.regrowsOn = Number.POSITIVE_INFINITY
    return figures.beginsAt
  }
  const level = levelOf(running, day)
  const last = running.segments.at(-1)
  const falls = last !== undefined && 'falls' in last
  if (falls && level < figures.goneBelow) {
    running.until = day
    return 0
  }
  if (day >= now.diesOn && !falls) turnToFall(running, day, figures.diesBack)
  else if (falls && day >= now.regrowsOn && day < now.diesOn) {
    turnToGrowth(running, day)
    now.regrowsOn = Number.POSITIVE_INFINITY
  }
  return level
}
