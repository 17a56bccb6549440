import type { SiteMap } from './map-site.js'

/** A map of some areas alone. Numbers stay those of the whole map, so that both can be read beside one another. */
export function onlyAreasOf(map: SiteMap, asked: readonly string[]): SiteMap {
  const areas = map.areas.filter(({ id }) => asked.includes(id))
  const devices = map.devices.filter(({ area }) => asked.includes(area))
  const ids = new Set(devices.map(({ id }) => id))
  return {
    ...map,
    drawing:
      map.drawing.is === 'drawn'
        ? { is: 'left out', file: map.drawing.file, why: 'it shows the whole site, and this is part of it' }
        : map.drawing,
    areas,
    devices,
    conditions: map.conditions.filter(({ area }) => area !== undefined && asked.includes(area)),
    places: map.places.filter(({ members }) => members.every((id) => ids.has(id))),
    gaps: map.gaps.filter(({ from, to }) => ids.has(from) && ids.has(to)),
    needs: map.needs.filter((need) => need.areas.some((area) => asked.includes(area))),
    leftOut: map.areas.filter(({ id }) => !asked.includes(id)).map(({ name }) => name),
  }
}
