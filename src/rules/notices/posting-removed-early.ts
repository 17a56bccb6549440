import { instantOn } from '../../ledger/instants.js'
import { dayIn } from '../../ledger/spans.js'
import { askedByRulebooks } from '../licences/asked-by-rulebooks.js'
import { underOwnRulebook } from '../own-rulebook.js'
import { siteRule } from '../rule.js'
import { gelInCracks, noticeOf, postingDuties, signs } from './example-ledgers.js'
import { applicationHoursAreToldElsewhere, mergedFaults } from './merge-faults.js'
import { momentText } from './moments.js'
import { signFaults } from './sign-faults.js'

type RemovedArgs = {
  readonly down: string
  /** `72 hours after the end` */
  readonly stay: string
  /** Moment until which they stay, on the clocks of the district. */
  readonly until: string
  readonly shown: 'early' | 'not recorded'
  /** Whose hour is not known, where that leaves it open. */
  readonly hour: 'taking down' | 'application'
}

export const postingRemovedEarly = siteRule<RemovedArgs>({
  id: 'posting-removed-early',
  title: 'signs were taken down too early',
  level: 'error',
  judgedOn: 'the day of the application; it is true from the day they were taken down',
  why: 'Residues are freshest in the first days, and those are the days on which people still ask what happened here.',
  remedy:
    'Hang them again for the rest of the time. If they hung longer than the record says, mend it: `posted: {taken-down: 2026-03-15, taken-down-at: 16:05}`.',
  source: askedByRulebooks('postings'),
  actor: 'coordinator',
  gap: false,
  says: ({ down, stay, until, shown, hour }) =>
    shown === 'early'
      ? `These signs were taken down ${down}; they stay until ${stay}, ${until}.`
      : `The record does not show whether these signs, taken down ${down}, hung long enough: they stay until ${stay}, ${until}, and the hour of the ${hour} is not known.`,
  *check(view) {
    const takenDown = (posted: { 'taken-down'?: string | undefined; 'taken-down-at'?: string | undefined }) =>
      instantOn(view.district, dayIn(posted['taken-down'] ?? ''), posted['taken-down-at'])
    const faults = signFaults(
      view,
      'gone',
      ({ stayed }) => stayed,
      (posted) => ({
        path: ['posted', posted['taken-down-at'] === undefined ? 'taken-down' : 'taken-down-at'],
      }),
      ({ asked }) => -(asked.staysUntil?.latest ?? 0),
    ).filter(({ certain, sign, treatment }) => {
      const { earliest, latest } = takenDown(sign.posting.data.posted)
      return certain || earliest < latest || !applicationHoursAreToldElsewhere(view, treatment)
    })
    for (const { strictest, certain, finding } of mergedFaults(view, faults)) {
      const { sign, assessment, treatment } = strictest
      const { posted } = sign.posting.data
      const { stay, staysUntil } = assessment.asked
      const down = takenDown(posted)
      yield {
        args: {
          down: momentText(view.district, down),
          stay,
          until: staysUntil ? momentText(view.district, staysUntil) : '',
          shown: certain ? 'early' : 'not recorded',
          hour: down.earliest < down.latest ? 'taking down' : 'application',
        },
        ...finding,
        from: Math.max(treatment.day, dayIn(posted['taken-down'] ?? '')),
      }
    }
  },
  failing: `${underOwnRulebook(postingDuties)}${gelInCracks()}${noticeOf(
    '2026-03-09',
    signs({ 'taken-down-at': 'taken-down-at: 16:04 # expect: posting-removed-early' }),
  )}`,
  passing: `${underOwnRulebook(postingDuties)}${gelInCracks()}${noticeOf('2026-03-09', signs())}`,
})
