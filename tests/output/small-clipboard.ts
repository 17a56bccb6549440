import type { Clipboard, ClipboardArea } from '../../src/reports/clipboard.js'

const device = {
  markedAs: undefined,
  traps: 1,
  for: ['German cockroach'],
  whilePupilsAway: false,
  pickedUp: undefined,
  last: '2026-03-08: none',
}

const kitchen: ClipboardArea = {
  id: 'kitchen',
  name: 'Main kitchen',
  kind: 'kitchen',
  floor: 1,
  usedByChildren: false,
  keys: 'ring 3',
  letInBy: 'cook',
  lookAt: ['floor drains'],
  complaints: [
    { id: '2026-03-04-marsh', area: 'kitchen', place: 'Main kitchen', of: 'mouse', says: 'rustling' },
  ],
  devices: [
    {
      kind: 'sticky trap',
      for: ['German cockroach'],
      asks: [
        { write: 'none', as: 'mark' },
        { write: 'count', as: 'words' },
        { write: 'bait gone', as: 'choice', choices: ['some', 'all'] },
      ],
      devices: [
        { ...device, id: 'K1' },
        { ...device, id: 'K2', markedAs: '#17', traps: 2, for: ['Pharaoh ant'], pickedUp: '2026-03-08' },
      ],
    },
  ],
  conditions: [
    {
      name: 'drip',
      area: 'kitchen',
      says: 'drip under sink',
      since: '2026-03-01',
      owner: 'maintenance',
      due: '2026-03-20',
      repairedOn: undefined,
    },
    {
      name: 'crack',
      area: 'kitchen',
      says: 'crack in tiles',
      since: '2026-03-01',
      owner: undefined,
      due: undefined,
      repairedOn: '2026-03-10',
    },
  ],
  cautions: [{ about: 'bats', says: 'Never touch a bat.' }],
}

const nowhere: ClipboardArea = {
  // Nothing can be inspected there, and nothing found.
  id: '',
  name: 'No area recorded',
  kind: undefined,
  floor: undefined,
  usedByChildren: false,
  keys: undefined,
  letInBy: undefined,
  lookAt: [],
  complaints: [],
  devices: [],
  conditions: [],
  cautions: [],
}

/** A site with one area, two devices, an open condition and a repaired one, and a place that is no area. */
export const smallClipboard: Clipboard = {
  site: 'oak',
  name: 'Oak School',
  address: '1 Invented Road',
  asOf: '2026-03-31',
  siteManager: 'Tor Lind',
  complaintLog: 'front office',
  complaints: kitchen.complaints,
  areas: [kitchen, nowhere],
  leftOut: ['Gym', 'Store'],
  cautions: [
    { about: 'hands', says: 'Wear gloves.' },
    { about: 'bats', says: 'Never touch a bat.' },
  ],
  notExamined: ['One record dated after the as-of day was not looked at.'],
}

/** The same with one text in every place where a record's text can stand. */
export function everywhere(text: string): Clipboard {
  const swap = (value: unknown): unknown => {
    if (typeof value === 'string') return text
    if (Array.isArray(value)) return value.map(swap)
    if (typeof value !== 'object' || value === null) return value
    return Object.fromEntries(
      // What a box is for, and how it is filled, is never a record's text.
      Object.entries(value).map(([key, of]) => [
        key,
        key === 'asks' || (key === 'id' && of === '') ? of : swap(of),
      ]),
    )
  }
  return swap(smallClipboard) as Clipboard
}
