import type { SiteView } from '../ledger/site-view.js'
import { deviceTable } from '../records/tables.js'
import { withArticle } from './application-words.js'

/** Free text of a record as it may stand on a public page. */
export type PublicText = (text: string) => string

interface Asked {
  readonly view: SiteView
  /** Exact placements, as the record has them: bait and traps are found by them. */
  readonly placements: readonly string[]
  /** Names stay. Placements and devices never do. */
  readonly withNames: boolean
}

/**
 * Free text without the names and ids of people on record, the ids of devices and exact placements; each gives way to
 * a word for what it is. Names of areas, sites and products stay, also where a person has the same name. A name that
 * nobody on record has cannot be told from other words; the schema asks for none.
 */
export function publicTextFor({ view, placements, withNames }: Asked): PublicText {
  const { district } = view
  const kept = [
    view.site.data.name,
    ...[...view.areas.values()].flatMap(({ facts }) => facts.name ?? []),
    ...[...district.products.values()].map(({ data }) => data.name),
  ]
  const people = withNames ? [] : [...district.people.values()]
  const roles = new Map<string, string>()
  for (const { id, data } of people) {
    const role = `the ${roleWord(data.roles)}`
    for (const word of [data.name, ...wordsOf(data.name), ...(ordinaryWords.has(id) ? [] : [id])])
      roles.set(word, role)
  }
  const devices = deviceWords(view)
  const stem = people.length === 0 ? nothing : anyOf(people.map(({ id }) => id))
  const pattern = new RegExp(
    [
      `(?<kept>${whole(anyOf(kept))})`,
      `(?:${start}[Tt]he )?(?<placement>${anyOf(placements.filter((text) => text.length > 7))})`,
      `(?<=\\d{4}-\\d{2}-\\d{2})(?<author>-${stem}(?:-[a-z0-9]+)*)${end}`,
      `(?:${title})?(?<name>${whole(anyOf([...roles.keys()]))})`,
      `(?:(?<noun>${deviceNouns}) )?(?<device>${whole(listOf([...devices.keys()]))})`,
    ].join('|'),
    'gu',
  )
  return (text) =>
    text
      .replace(/\s+/g, ' ')
      .trim()
      .replace(pattern, (...found: unknown[]) => {
        const [all, at, , groups] = [found[0], ...found.slice(-3)] as [string, number, string, Groups]
        if (groups.kept !== undefined) return all
        if (groups.author !== undefined) return ''
        if (groups.placement !== undefined) return 'the treated place'
        if (groups.noun !== undefined) return groups.noun
        const word =
          groups.name === undefined
            ? wordsForDevices(groups.device ?? '', devices)
            : (roles.get(groups.name) ?? 'someone')
        return isAtStart(text, at) ? capitalised(word) : word
      })
}

type Groups = Readonly<Partial<Record<'kept' | 'placement' | 'author' | 'name' | 'noun' | 'device', string>>>

const nothing = '(?!)'
const start = '(?<![\\p{L}\\p{N}_-])'
const end = '(?![\\p{L}\\p{N}_])'
const title = `(?:${start}(?:Mr|Mrs|Ms|Miss|Mx|Dr)\\.? |${start}\\p{Lu}\\. ?)`
const deviceNouns =
  '[Bb]oards?|[Cc]ards?|[Tt]raps?|[Ss]tations?|[Dd]evices?|[Mm]onitors?|[Tt]ubes?|[Pp]atch(?:es)?'

/** Names of months and days are no first names here: `8 May` is a day. */
const calendarWords = new Set(
  'January February March April May June July August September October November December Monday Tuesday Wednesday Thursday Friday Saturday Sunday'.split(
    ' ',
  ),
)

/** Ids of people that are words of such records: where one stands in small letters, it is the word. */
const ordinaryWords = new Set(
  'baker banks bean berry black brook brown bush carpenter cook crane field fields flower garden gardener glass gray green grey hall heath hedge hill house marsh mason may moss painter pool pond red reed rice rivers rose spring stone summer thorn vale wall waters white winter wood woods'.split(
    ' ',
  ),
)

/** The words of a name by which people go, each: `Ada`, `Okafor`. Initials and short words are none. */
function wordsOf(name: string): string[] {
  return name.split(/[\s.,]+/).filter((word) => /^\p{Lu}.{2,}/u.test(word) && !calendarWords.has(word))
}

const roleOrder = [
  ['coordinator', 'coordinator'],
  ['applicator', 'technician'],
  ['technician', 'technician'],
  ['expert', 'expert'],
  ['site-manager', 'site manager'],
  ['custodian', 'custodian'],
  ['maintenance', 'maintenance worker'],
  ['grounds', 'groundskeeper'],
  ['clerk', 'clerk'],
] as const

/** What someone does in the programme, in place of a name: `technician`. */
export function roleWord(roles: readonly string[]): string {
  return roleOrder.find(([role]) => roles.includes(role))?.[1] ?? 'member of staff'
}

/** Ids and marks of devices, and what kind each is. One that is an ordinary word tells no position and stays. */
function deviceWords(view: SiteView): Map<string, string> {
  const words = new Map<string, string>()
  for (const { id, kind, setFacts } of view.devices) {
    const mark = setFacts['marked-as']
    if (/[\dA-Z-]/.test(id)) words.set(id, deviceTable()[kind].name)
    if (mark !== undefined && /\d/.test(mark) && /[^\d\s.]/.test(mark))
      words.set(mark, deviceTable()[kind].name)
  }
  return words
}

function wordsForDevices(written: string, devices: ReadonlyMap<string, string>): string {
  const kind = devices.get(written) ?? devices.get(written.toUpperCase())
  if (kind === undefined) return 'some traps'
  return withArticle(kind)
}

/** One of the ids, or several in a row: `K1`, `K1 to K4`, `K1, K2 and K3`; what stands in such a row is a device too. */
function listOf(ids: readonly string[]): string {
  const one = anyOf(ids, true)
  return `${one}(?:(?:, and |, | and | or | to |/|-|–)(?:${one}|[A-Za-z]{1,3}\\d+)${end})*`
}

function anyOf(texts: readonly string[], inAnyCase = false): string {
  if (texts.length === 0) return nothing
  const written = [...new Set(texts)]
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .map((text) => {
      const escaped = text.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&')
      return inAnyCase && /\d/.test(text)
        ? escaped.replace(/[a-z]/gi, (letter) => `[${letter.toLowerCase()}${letter.toUpperCase()}]`)
        : escaped
    })
  return `(?:${written.join('|')})`
}

function whole(pattern: string): string {
  return `${start}${pattern}${end}`
}

function isAtStart(text: string, at: number): boolean {
  return at === 0 || /[.!?] $/.test(text.slice(0, at))
}

function capitalised(word: string): string {
  return `${word.slice(0, 1).toUpperCase()}${word.slice(1)}`
}
