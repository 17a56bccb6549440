import type { DistrictView } from '../../ledger/district-view.js'
import type { Loaded } from '../../ledger/loaded.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { PublicText } from '../application-public-text.js'
import { publicTextFor } from '../application-public-text.js'

/** What a page that may be published leaves out unless it is asked for. Pupils are in no record, so in no page. */
export const parts = ['complaints', 'floor-plan', 'names'] as const
export type Part = (typeof parts)[number]

export const leftOutWords: Readonly<Record<Part, string>> = {
  complaints: 'the complaint log: what people said, and where',
  'floor-plan': 'floor plans, and which device stands where',
  names: 'names of staff, and the files of the records, which bear them',
}

/**
 * Free text as it may stand on the page: people on record give way to what they do, unless names are asked for. Names of
 * sites, areas and products stay, also where a person has the same name.
 */
export function reviewText(
  district: DistrictView,
  sites: readonly Loaded<'site'>[],
  withParts: ReadonlySet<Part>,
): PublicText {
  if (withParts.has('names')) return (text) => text
  const ofPeople = new Set(
    [...district.people.values()].flatMap(({ id, data }) => wordsOf(`${data.name} ${id}`)),
  )
  // Only a name that could be taken for that of a person needs keeping; a large district has thousands of others.
  const needsKeeping = (name: string) => wordsOf(name).some((word) => ofPeople.has(word))
  const names = sites
    .flatMap(({ data }) => [data.name, ...Object.values(data.areas).flatMap(({ name }) => name ?? [])])
    .filter(needsKeeping)
  // What the words are made from; no device is hidden here, since no column of one is shown.
  const view = {
    district: {
      ...district,
      people: new Map(
        [...district.people].map(([id, one]) => [
          id,
          { ...one, id: hyphensKept(id), data: { ...one.data, name: hyphensKept(one.data.name) } },
        ]),
      ),
      products: new Map(
        [...district.products]
          .filter(([, { data }]) => needsKeeping(data.name))
          .map(([id, one]) => [id, { ...one, data: { ...one.data, name: hyphensKept(one.data.name) } }]),
      ),
    },
    site: { data: { name: hyphensKept(district.district.data.name) } },
    areas: new Map(names.map((name, at) => [String(at), { facts: { name: hyphensKept(name) } }])),
    devices: [],
  } as unknown as SiteView
  const shown = publicTextFor({ view, placements: [], withNames: false })
  return (text) => shown(hyphensKept(text)).replaceAll(hyphen, '-')
}

const hyphen = '\u2011'

/** A hyphen holds a name together, `Smith-Jones`, and is not the one between a date and who wrote a record. */
function hyphensKept(text: string): string {
  return text.replace(/(\d{4}-\d{2}-\d{2}-?)|-/g, (_, dated?: string) => dated ?? hyphen)
}

function wordsOf(text: string): string[] {
  return text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? []
}
