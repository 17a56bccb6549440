import type { ReadLedger } from '../ledger/read-ledger.js'
import { chanceWanted } from './coverage-chance.js'
import type { AreaWatch, SiteWatch, Watch } from './coverage-collect.js'
import type { Need, NeedKind } from './coverage-needs.js'
import { placeWords } from './coverage-needs-tables.js'
import { pestName } from './pest-name.js'

export const coverageCautions: readonly string[] = [
  'A device catches only what passes it, and none caught is no all-clear: people who look, and who are asked, find what devices miss.',
  'Where one animal is enough, act on one; no number here delays that.',
  'Not every area needs a device. One is missed here where a pest was seen or complained of, or where one is enough and the plan names the kind of area or most such areas in the district have one (common practice, no source). Outdoors only what was seen counts.',
  `Too few: fewer traps than would catch any with a chance of ${chanceWanted * 100} % from one check to the next while the pest stands just at its threshold, with catches as clumped as this ledger lets one judge. Even then a reading reaches the threshold itself only about every other time, and less often where catches clump. Numbers to add are the least, for traps as good as those there, or to renew what is lost.`,
  'Up to: the 95 % limit when none was caught. Catches clump, so the truth can be higher. Cannot tell: no reading with effort, or what stands there counts no animals.',
]

interface Shown {
  readonly needs: readonly Need[]
  readonly watches: readonly Watch[]
  readonly areas: readonly AreaWatch[]
  /** How many plans are in force. */
  readonly plans: number
  readonly incomplete: boolean
}

const areasIn = (needs: readonly Need[], kind: NeedKind) =>
  needs.filter((one) => one.kind === kind).reduce((sum, one) => sum + Math.max(1, one.areas.length), 0)

export function coverageHeadline({ needs, watches, areas, plans, incomplete }: Shown): string {
  if (areas.length === 0) return 'No area that is open could be looked at, so nothing can be said.'
  const seen = areasIn(needs, 'seen-no-device')
  const first = needs[0]
  const rest = restWords(needs)
  if (seen > 0 && first)
    return `In ${seen === 1 ? 'one place' : `${seen} places`} people saw or complained of a pest and no device that can catch it stands there, first of all ${pestName(first.pest ?? '')} in ${first.site} ${placeWords(first)}${rest === '' ? '' : `; ${rest}`}.`
  const read = incomplete ? ', as far as the sites could be read' : ''
  const start = watches.some((watch) => watch.seen.length > 0)
    ? `Wherever people saw or complained of a pest, a device for it stands, stood since or caught it${read}`
    : `No pest was seen or complained of that a device could show${read}`
  if (rest !== '') return `${start}; ${rest}${firstWords(first)}.`
  return plans === 0
    ? `${start}, and without a plan in force no more can be told.`
    : `${start}, and by the plans in force nothing is missing; none caught is no all-clear.`
}

const firstWords = (first: Need | undefined) =>
  first === undefined
    ? ''
    : `, first of all ${first.pest === undefined ? '' : `for ${pestName(first.pest)} in `}${first.site} ${placeWords(first)}`

/** What is missing beside what was seen, in a few words. */
function restWords(needs: readonly Need[]): string {
  const parts: string[] = []
  const say = (areas: number, one: string, more: string) => {
    if (areas > 0) parts.push(areas === 1 ? one : `${areas} ${more}`)
  }
  say(
    areasIn(needs, 'one-is-enough'),
    'one area lacks a device for a pest of which one is enough',
    'areas lack a device for a pest of which one is enough',
  )
  say(
    areasIn(needs, 'too-few'),
    `one area has too few traps to be ${chanceWanted * 100} % sure of noticing a threshold`,
    `areas have too few traps to be ${chanceWanted * 100} % sure of noticing a threshold`,
  )
  say(
    areasIn(needs, 'not-inspected') + areasIn(needs, 'not-entered'),
    'one area was not inspected',
    'areas were not inspected',
  )
  return parts.join('; ')
}

/** What could not be held against devices, over the sites shown: never passed over in silence. */
export function coverageUntold(
  sites: readonly Pick<SiteWatch, 'seen' | 'closed'>[],
  { district }: Pick<ReadLedger, 'district'>,
  plans: number,
  pest: string | undefined,
): string[] {
  const unnamed = sites.reduce((sum, { seen }) => sum + seen.unnamed, 0)
  const closed = sites.reduce((sum, one) => sum + one.closed, 0)
  const beyond = new Map<string, number>()
  for (const { seen } of sites)
    for (const [one, number] of seen.beyondDevices)
      if (pest === undefined || pest === one) beyond.set(one, (beyond.get(one) ?? 0) + number)
  return [
    ...(district && plans === 0
      ? ['No plan is in force, so only complaints, sightings and inspections could be looked at.']
      : []),
    ...(unnamed > 0
      ? [
          `${times(unnamed)} of a pest that is not named or not identified: no device can be said to be for it.`,
        ]
      : []),
    ...[...beyond]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(
        ([one, number]) =>
          `${times(number)} of ${pestName(one)}: no kind of device of this program shows it there.`,
      ),
    ...(closed > 0 ? [`${closed === 1 ? 'One area' : `${closed} areas`} closed before the as-of day.`] : []),
  ]
}

const times = (number: number) =>
  number === 1 ? 'One complaint or sighting' : `${number} complaints or sightings`
