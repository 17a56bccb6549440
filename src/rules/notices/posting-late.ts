import { instantOn } from '../../ledger/instants.js'
import { isoOf } from '../../measure/calendar.js'
import { askedByRulebooks } from '../licences/asked-by-rulebooks.js'
import { underOwnRulebook } from '../own-rulebook.js'
import { siteRule } from '../rule.js'
import { gelInCracks, noticeOf, postingDuties, signs } from './example-ledgers.js'
import { applicationHoursAreToldElsewhere, mergedFaults } from './merge-faults.js'
import { momentText } from './moments.js'
import { signFaults } from './sign-faults.js'
import { dueWords } from './words.js'

type LateArgs = {
  readonly put: string
  readonly term: string
  /** Last moment at which they could be put up, on the clocks of the district. */
  readonly latest: string
  /** Day of the application. */
  readonly day: string
  readonly shown: 'late' | 'after the application' | 'not recorded'
  /** Whose hour is not known, where that leaves it open. */
  readonly hour: 'signs' | 'application'
}

export const postingLate = siteRule<LateArgs>({
  id: 'posting-late',
  title: 'signs were put up too late',
  level: 'error',
  judgedOn: 'the day of the application',
  why: 'Whoever does not read letters reads the door, and needs the same days to keep away.',
  remedy:
    'If they hung earlier than the record says, write that down: `posted: {at: 07:30}`. Another time put them up sooner, or put the application off until they have hung for the time asked.',
  source: askedByRulebooks('postings'),
  actor: 'coordinator',
  gap: false,
  says: ({ put, term, latest, day, shown, hour }) => {
    const due = `they were due ${dueWords(term, latest)}`
    if (shown === 'after the application')
      return `These signs were put up ${put}, after the application of ${day} began; ${due}.`
    if (shown === 'late') return `These signs were put up ${put}; ${due}.`
    return `The record does not show whether these signs, put up ${put}, hung in time: ${due}, and the hour of the ${hour} is not known.`
  },
  *check(view) {
    const faults = signFaults(
      view,
      'signs',
      ({ timing }) => timing.outcome,
      ({ at }) => ({ path: at === undefined ? ['application'] : ['posted', 'at'] }),
      ({ asked }) => asked.latest?.earliest ?? 0,
    ).filter(
      ({ certain, sign, treatment }) =>
        certain ||
        sign.posting.data.posted.at === undefined ||
        !applicationHoursAreToldElsewhere(view, treatment),
    )
    for (const { strictest, certain, finding } of mergedFaults(view, faults)) {
      const { sign, assessment, treatment } = strictest
      const { asked } = assessment
      const { day, data } = sign.posting
      yield {
        args: {
          put: momentText(view.district, instantOn(view.district, day, data.posted.at)),
          term: asked.term,
          latest: asked.latest ? momentText(view.district, asked.latest) : '',
          day: isoOf(treatment.day),
          shown: !certain
            ? 'not recorded'
            : sign.timing.amiss === 'after the application'
              ? sign.timing.amiss
              : 'late',
          hour: data.posted.at === undefined ? 'signs' : 'application',
        },
        ...finding,
      }
    }
  },
  failing: `${underOwnRulebook(postingDuties)}${gelInCracks()}${noticeOf('2026-03-09', signs({ at: 'at: 15:41 # expect: posting-late' }))}`,
  passing: `${underOwnRulebook(postingDuties)}${gelInCracks()}${noticeOf('2026-03-09', signs({ at: 'at: 15:40' }))}`,
})
