import type { Sighting, SiteView } from '../ledger/site-view.js'
import { pestTable } from '../records/tables.js'
import type { Day } from '../types.js'
import { canBeShown, isMeantFor } from './coverage-devices.js'
import type { Period } from './period.js'

/** A complaint of a pest, or a sighting outside devices, of a pest that some device could show there. */
export interface SeenPest {
  readonly pest: string
  /** Undefined where the record names no area of the site. */
  readonly area: string | undefined
  readonly day: Day
  readonly how: 'complaint' | 'sighting'
  readonly file: string
}

export interface SeenPests {
  readonly seen: readonly SeenPest[]
  /** Complaints and sightings that name no pest of the table, or one not identified. */
  readonly unnamed: number
  /** By pest, those that no device could have shown. */
  readonly beyondDevices: ReadonlyMap<string, number>
}

/**
 * Complaints and sightings of a period. Withdrawn complaints, abandoned nests and old traces are left out: they do not say
 * that the pest was there in the period.
 */
export function seenPestsOf(view: SiteView, { from, to }: Period): SeenPests {
  const all = [...complaintsOf(view), ...sightingsOf(view)].filter(({ day }) => day >= from && day <= to)
  const seen: SeenPest[] = []
  const beyondDevices = new Map<string, number>()
  let unnamed = 0
  for (const { pest, ...rest } of all) {
    if (pest === undefined || pest === 'unidentified' || !pestTable().has(pest)) unnamed++
    else if (isWithinReach(view, pest, rest.area)) seen.push({ pest, ...rest })
    else beyondDevices.set(pest, (beyondDevices.get(pest) ?? 0) + 1)
  }
  return { seen, unnamed, beyondDevices }
}

type Told = Omit<SeenPest, 'pest'> & { readonly pest: string | undefined }

/** A device of the site that is set for the pest shows it, whatever the table says. */
function isWithinReach(view: SiteView, pest: string, area: string | undefined): boolean {
  const kind = area === undefined ? undefined : view.areas.get(area)?.facts.kind
  return canBeShown(pest, kind) || view.devices.some((device) => isMeantFor(device, pest))
}

function complaintsOf(view: SiteView): Told[] {
  return view.complaints
    .filter(({ data }) => data.withdrawn === undefined)
    .map(({ data, day, file }) => ({
      pest: data.pest,
      area: knownArea(view, data.area),
      day,
      how: 'complaint',
      file,
    }))
}

function sightingsOf(view: SiteView): Told[] {
  return view.sightings.filter(isOfNow).map(({ facts, day, visit }) => ({
    pest: facts.pest,
    area: knownArea(view, facts.area),
    day,
    how: 'sighting',
    file: visit.file,
  }))
}

function isOfNow({ facts }: Sighting): boolean {
  return facts['nest-state'] !== 'abandoned' && facts.age !== 'old' && facts.count !== 0
}

function knownArea(view: SiteView, area: string | undefined): string | undefined {
  return area !== undefined && view.areas.has(area) ? area : undefined
}
