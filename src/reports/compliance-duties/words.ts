import type { Duty } from '../../ledger/rulebooks-in-force.js'
import type { DutyOf, DutySection } from '../../records/rulebook-duties.js'
import { filingWords } from '../../rules/yearly/words.js'

type Words = { readonly [S in DutySection]: (says: DutyOf<S>, state: string | undefined) => string }

const of = (state: string | undefined) => (state === undefined ? '' : ` of ${state}`)
const inCategory = (categories: readonly string[] | undefined) =>
  categories === undefined ? '' : `, ${categories.join(' or ')}`
const among = (parts: readonly (string | false | undefined)[]) => parts.filter(Boolean).join(', ')

const words: Words = {
  notices: ({ to, reach, lead, says }) =>
    among([
      `notice to ${reach === 'all' ? `all ${to}` : reach === 'those who asked' ? `${to} who asked` : `${to}, or those who asked`}`,
      `${lead} before`,
      says && 'with what it has to say',
    ]),
  postings: ({ before, after, size, 'at-the': places, says }) =>
    among([
      'signs',
      before !== undefined && `${before} before`,
      after !== undefined && `until ${after} after`,
      size,
      places && `at ${places.join(' and ')}`,
      says && 'with what they have to say',
    ]),
  reentry: ({ wait, label, dry }) =>
    among([
      'pupils stay out',
      wait !== undefined && wait,
      label === 'instead' && 'or the time on the label instead',
      label === 'if longer' && 'the time on the label if longer',
      dry && 'until it is dry or settled',
    ]),
  occupancy: ({ pupils, 'unless-separated': apart }) =>
    `${pupils.replace('none', 'no pupils')}${apart ? ', unless the part is separated' : ''}`,
  emergencies: (says) =>
    among([
      'in an emergency',
      says['notice-within'] !== undefined && `notice within ${says['notice-within']}`,
      says['or-next-school-morning'] && 'by the next school morning',
      says['sign-at-start'] && 'a sign when it begins',
      says['sign-after'] !== undefined && `staying ${says['sign-after']}`,
      says.statement !== undefined && `a ${says.statement} statement`,
      says.prevention && 'how the next is prevented',
    ]),
  records: ({ elements, within }) =>
    among([
      elements ? `the record holds ${elements.join(', ')}` : 'the record is made',
      within !== undefined && `written within ${within}`,
    ]),
  keeping: ({ what, keep }) => `records (${what}) kept ${keep}`,
  licences: ({ of: whose, 'in-state': inState, categories, supervised }, state) =>
    `a licence${inState ? of(state) : ''} of the ${whose}${inCategory(categories)}${supervised === 'yes' ? ', or of who supervised' : ''}`,
  registrations: ({ 'in-state': inState }, state) =>
    inState ? `registered in ${state ?? 'the state'}` : 'a registered product',
  approvals: ({ by, 'good-for': good }) =>
    `approved beforehand by ${by.map((kind) => kind.replace('-', ' ')).join(' and ')}${good === undefined ? '' : `, good for ${good}`}`,
  prohibitions: ({ what }) => `not done: ${what}`,
  yearly: ({ what, year, every, once }) =>
    `${filingWords[what]}, ${once ? 'once' : every === undefined || every === 1 ? `each ${year} year` : `every ${every} ${year} years`}`,
  training: ({ who, course, every }) => `course \`${course}\` every ${every}, ${who}`,
}

/** What a duty asks, in a few words; its clause stands beside it. */
export function dutyInWords<S extends DutySection>(section: S, { says, state }: Duty<S>): string {
  return words[section](says, state)
}
