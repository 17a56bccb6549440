import { dutiesFor } from '../../ledger/use-classes.js'
import type { Formulation } from '../../records/use-words.js'
import { baitFormulations } from '../../records/use-words.js'
import { levelFrom } from '../adopted.js'
import { commonPractice, siteRule } from '../rule.js'
import { onTheField } from './example-ledgers.js'
import { isOutdoors, spreadOutdoors } from './outdoor-applications.js'
import { isToldWeather } from './record-elements.js'

const parameter = 'outdoors.weather'

/** What falls where it is aimed; a formulation that is not known may drift. */
const doesNotDrift: ReadonlySet<Formulation | undefined> = new Set([
  ...baitFormulations,
  'granule',
  'foam',
  'glue',
  'solid',
] as const)

export const weatherNotRecorded = siteRule<{ method: string }>({
  id: 'weather-not-recorded',
  title: 'a pesticide was sprayed outdoors, and the wind is not recorded',
  level: 'warning',
  judgedOn: 'the day of the application',
  why: 'Wind carries spray to windows, playgrounds and neighbours, and rain washes it off; afterwards only the record tells what it was like.',
  remedy:
    'Look before spraying, follow what the label says of wind, and write it down: `weather: {wind: 4 mph, wind-from: SW, temperature: 64 F, sky: "dry, no rain forecast"}`.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  parameters: [parameter],
  says: ({ method }) =>
    `This application was made outdoors (${method}), and its record does not show the wind.`,
  *check(view) {
    for (const applied of spreadOutdoors(view)) {
      const { weather } = applied.application
      if (weather?.wind !== undefined || doesNotDrift.has(applied.formulation)) continue
      if (!applied.areas.every(isOutdoors)) continue
      const asked = view.district.parameters(parameter, applied.day, 'most')
      if (asked?.value !== 'yes') continue
      // Where the record has to hold the weather and holds none, that is told as a record that is not complete.
      const isAsked = dutiesFor(view, 'records', applied).some(({ says }) =>
        says.elements?.includes('weather'),
      )
      if (isAsked && !isToldWeather(weather)) continue
      yield {
        args: { method: applied.method },
        at: applied.at(weather === undefined ? 'method' : 'weather'),
        from: applied.day,
        sources: asked.sources,
        level: levelFrom(asked.sources, 'warning'),
      }
    }
  },
  failing: onTheField('weather:', 'method: spot # expect: weather-not-recorded'),
  passing: onTheField(),
})
