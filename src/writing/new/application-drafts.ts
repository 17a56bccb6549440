import type { Precheck } from '../../check/precheck.js'
import type { NoticeContent } from '../../records/use-words.js'
import { coordinatorOn, noticeFact } from '../../reports/notice-facts.js'
import { noticeAssessments } from '../../rules/notices/assess-notice.js'
import { postingAssessments } from '../../rules/notices/assess-posting.js'
import { momentText } from '../../rules/notices/moments.js'
import type { Line, Yaml } from '../demo/yaml.js'
import { recordText } from '../demo/yaml.js'
import { blank } from './example-values.js'

const noPermission =
  'This is no permission: the label on the container, local code and a licensed applicator decide.'

/** Keys that the record of an application can need, and what is written there. */
const keysToFill: Readonly<Record<string, string>> = {
  time: 'start and end, as 15:40 to 16:05',
  amount: 'undiluted amount in all, as 2 g',
  'treated-extent': 'size of what was treated, as 3 ft2',
  equipment: 'with what',
  lot: 'lot number on the container',
  dilution: 'a concentrate: {water: 1 gal}',
  weather: 'outdoors: {wind: 4 mph, wind-from: SW, temperature: 64 F, sky: dry}',
  pupils: 'where pupils were, as none in the building',
  identified: 'who identified the pest, and how: {by: okafor, how: nymphs under a hand lens}',
  threshold: 'what count or sign reached the threshold',
  reason: 'why it was needed',
  'tried-first': 'what was tried before',
  'chosen-because': 'why this product and method and no milder one',
  approved: 'prior written approval: {by: [marsh], on: 2026-03-10}',
  dry: 'when it was seen dry or settled, and by whom: {at: 16:05, by: okafor}',
  reopened: 'when the area was opened again, and by whom: {at: 16:30, by: lind}',
  'follow-up': 'what is looked at next, and by when: {by: 2026-04-02, look: K1}',
}

/** The record to be: what the draft says, still planned, and a remark for each key that is left to fill in. */
export function recordDraft({ treatment, draft }: Precheck): string | undefined {
  const facts = treatment?.application as Readonly<Record<string, Yaml>> | undefined
  if (!facts) return undefined
  const open = Object.entries(keysToFill)
    .filter(([key]) => facts[key] === undefined)
    .map(([key, words]): Line => `${key}: ${blank} # ${words}`)
  return recordText([
    `${draft.path.file}. ${noPermission}`,
    'When it is done: status done, and each line below that holds; take the # away.',
    ['by', facts.by],
    ['status', 'planned'],
    ...Object.entries(facts)
      .filter(([key]) => key !== 'by' && key !== 'status')
      .map(([key, value]): Line => [key, value]),
    ...open,
  ])
}

/** Records of the notice and the signs to be, with the words that the ledger has for them; nothing is sent. */
export function noticeDraft({ view, treatment, draft }: Precheck): string | undefined {
  if (!view || !treatment) return undefined
  const notices = noticeAssessments(view).filter((one) => one.treatment === treatment)
  const signs = postingAssessments(view).filter((one) => one.treatment === treatment)
  if (notices.length + signs.length === 0)
    return recordText([`The rulebooks in force ask for no notice and no sign, as drafted. ${noPermission}`])
  const inTime = (what: string, latest: { earliest: number } | undefined, term: string): Line =>
    latest
      ? `${what}: by ${momentText(view.district, { ...latest, latest: latest.earliest })}${term === '' ? '' : ` (${term})`}`
      : `${what}: ${term === '' ? 'when it begins' : term}`
  const groups = new Set(notices.map(({ asked }) => asked.group))
  const said = (of: readonly { readonly asked: { readonly says: readonly NoticeContent[] } }[]) => [
    ...new Set(of.flatMap(({ asked }) => asked.says)),
  ]
  const places = [...new Set(signs.flatMap(({ asked }) => asked.places))]
  const sizes = [...new Set(signs.flatMap(({ asked }) => asked.size ?? []))]
  return recordText(
    [
      `To be sites/${view.id}/notices/<the day it was sent>-<who sent it>.yaml, once it was. ${noPermission}`,
      ...notices.map(({ asked }) => inTime(`notice to ${asked.group}`, asked.latest, asked.term)),
      ...signs.map(({ asked }) => inTime('sign', asked.latest, asked.term)),
      ['by', coordinatorOn(view, treatment) ?? blank],
      ['application', draft.path.id],
      [
        'sent',
        notices.length === 0
          ? undefined
          : {
              to: groups.size > 1 ? 'everyone' : groups.has('parents') ? 'all parents' : 'all staff',
              how: blank,
              says: listOrNone(said(notices)),
            },
      ],
      [
        'posted',
        signs.length === 0
          ? undefined
          : {
              places: [blank],
              'at-the': listOrNone(places),
              size: sizes.length === 1 ? sizes[0] : undefined,
              says: listOrNone(said(signs)),
            },
      ],
      'Leave in `says` only what it said. Words to begin with, as far as the ledger has them:',
      ...said([...notices, ...signs]).map(
        (content) => `${content}: ${noticeFact(content, view, treatment) || blank}`,
      ),
    ],
    ['sent', 'posted'],
  )
}

function listOrNone(words: readonly string[]): readonly string[] | undefined {
  return words.length === 0 ? undefined : words
}
