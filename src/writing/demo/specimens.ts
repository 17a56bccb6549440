import { chance, wholeBetween } from '../../measure/seeded-random.js'
import { dateText } from './days.js'
import type { Draft } from './draft.js'
import { figures } from './figures.js'
import type { Site, World } from './world.js'
import type { YamlMap } from './yaml.js'
import { mapText } from './yaml.js'

/** Keeps a specimen of a small insect now and then; it is entered once the answer has come. */
export function specimenOf(world: World, site: Site, draft: Draft): void {
  for (const [name, sighting] of Object.entries(draft.found)) {
    if (sighting.evidence !== 'live' || !chance(site.random, figures.specimenSent)) continue
    const pest = typeof sighting.pest === 'string' ? sighting.pest : undefined
    if (pest === undefined || pest === 'unidentified' || pest === 'yellowjacket') continue
    const sent = draft.day + 1
    let answered = draft.day + wholeBetween(site.random, 6, 12)
    while (!world.calendar.isWorkday(answered)) answered++
    const determined: YamlMap = {
      as: pest,
      by: 'invented county extension office',
      on: dateText(answered),
      sure: 'sure',
    }
    const record: YamlMap = {
      by: draft.by.id,
      sighting: `${dateText(draft.day)}-${draft.by.id}/${name}`,
      area: sighting.area,
      kept: `alcohol vial ${wholeBetween(site.random, 1, 60)}, coordinator office`,
      'sent-to': 'invented county extension office',
      'sent-on': dateText(Math.min(sent, world.until)),
      determined: answered <= world.until ? determined : undefined,
    }
    world.commit(draft.by, Math.min(answered, world.until), 800, `${site.name}: specimen determined`, [
      {
        path: `sites/${site.id}/specimens/${dateText(draft.day)}-${draft.by.id}.yaml`,
        text: mapText(record),
      },
    ])
    return
  }
}
