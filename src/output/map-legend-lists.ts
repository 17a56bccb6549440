import type { MapDevice, SiteMap } from '../reports/map-site.js'
import { labelOf } from './map-device.js'
import type { Entry, Shown } from './map-legend-entry.js'
import { figure, titled } from './map-legend-entry.js'

/** A list is to be read beside the picture; a longer one is the table's. */
const longestList = 60

/** What the marks and numbers on the picture stand for. */
export function listEntries(map: SiteMap, shown: Shown): Entry[] {
  const names = new Map(map.areas.map(({ id, name }) => [id, name]))
  return [
    ...titled('Areas by number', cut(shown.unnamed.map(({ no, name }) => ({ text: `${no}: ${name}` })))),
    ...titled(
      'Open conditions',
      cut(
        map.conditions.map(({ no, areaName, what, owner, due }) => ({
          text: `c${no} ${areaName}: ${what} (${owner ?? 'nobody named'}${due === undefined ? '' : `, due ${due}`})`,
        })),
      ),
    ),
    ...titled(
      'Not watched',
      cut(
        map.needs.map(({ no, areas, says, pest, toAdd, lacks }) => ({
          text: `m${no} ${areas.map((area) => names.get(area) ?? area).join(', ') || 'area not told'}: ${pest === undefined ? '' : `${pest}, `}${says}${lacks === 'monitors' && toAdd !== null && toAdd > 0 ? `; ${toAdd} to set or renew, at least` : ''}`,
        })),
      ),
    ),
    ...titled(
      'Places that stand out',
      cut(
        map.places.map(({ no, pest, kindName, members, count, expected }) => ({
          text: `p${no} ${pest}, ${kindName}: ${count} caught by ${members.length} devices, ${figure(expected)} if rates were equal`,
        })),
      ),
    ),
    ...titled(
      'Stretches of runs that stand open',
      cut(
        map.gaps.map(({ no, run, from, to, apart, unit, limit, against }) => ({
          text: `g${no} ${run}: ${from} to ${to}, ${figure(apart)} ${unit} apart, at most ${limit} against ${against}`,
        })),
      ),
    ),
    ...titled(
      'Devices by number, where there is no room for more',
      cut(shown.numbered.map((one) => ({ text: `n${one.no}: ${wordsOf(one)}` }))),
    ),
    ...(shown.unlabelled.length === 0
      ? []
      : [
          {
            text: `${shown.unlabelled.length === 1 ? 'One device has' : `${shown.unlabelled.length} devices have`} no room even for a number; the table has every one with its position.`,
          },
        ]),
  ]
}

/** What would stand beside the device, were there room: its name and its rate. */
const wordsOf = (device: MapDevice) =>
  labelOf(device)
    .map(({ text }) => text)
    .join(' ')

function cut(entries: readonly Entry[]): readonly Entry[] {
  const more = entries.length - longestList
  return more > 1
    ? [...entries.slice(0, longestList), { text: `and ${more} more: see the table of \`doorsweep map\`.` }]
    : entries
}
