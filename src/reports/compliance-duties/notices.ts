import { getOrMake } from '../../ledger/get-or-make.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import type { NoticeAssessment } from '../../rules/notices/assess-notice.js'
import { noticeAssessments } from '../../rules/notices/assess-notice.js'
import type { ContentsShown } from '../../rules/notices/contents.js'
import { emergencyDuties, owed } from '../../rules/notices/duties-in-emergency.js'
import { momentText } from '../../rules/notices/moments.js'
import { sentText } from '../../rules/notices/timing-faults.js'
import { treatmentsToldOf } from '../../rules/notices/told-about.js'
import { dueWords } from '../../rules/notices/words.js'
import { notCounted, recessNotKnown } from '../calendar-reach.js'
import type { Assessor, Held, Part } from './held.js'
import { notApplicable, notChecked, outcomeOf, together } from './held.js'

const known = new WeakMap<SiteView, ReadonlyMap<Treatment, readonly NoticeAssessment[]>>()

/** Assessments of the notices about a treatment; undefined where an application record tells of the same bait. */
export function noticesOf(view: SiteView, treatment: Treatment): readonly NoticeAssessment[] | undefined {
  let found = known.get(view)
  if (!found) {
    const made = new Map<Treatment, NoticeAssessment[]>(
      treatmentsToldOf(view).map((told) => [told, []] as const),
    )
    for (const one of noticeAssessments(view)) getOrMake(made, one.treatment, () => []).push(one)
    found = made
    known.set(view, found)
  }
  return found.get(treatment)
}

export const toldByApplication = notApplicable(
  'an application record of that day tells of this bait, and is held to it',
)

/** Why nothing is owed beforehand although the duty holds for the use: a recess, or a stated emergency. */
export function whyNotOwed(
  view: SiteView,
  treatment: Treatment,
  section: 'notices' | 'postings',
  { rulebook, name }: { readonly rulebook: string; readonly name: string },
): Held | undefined {
  const isOwed = owed(view, section, treatment).some((one) => one.rulebook === rulebook && one.name === name)
  if (!isOwed) {
    const untold = recessNotKnown(view, treatment)
    if (untold !== undefined)
      return notChecked(`whether it was in a recess: ${untold}`, 'calendar of district.yaml')
    const closure = view.district.calendar.closureOn(treatment.day)?.name ?? 'recess'
    return notApplicable(`in a recess (${closure}), with no pupils in the building`)
  }
  return emergencyDuties(view, treatment).some((duty) => duty.rulebook === rulebook)
    ? notApplicable('an emergency is stated; what the rulebook asks instead is held under emergencies')
    : undefined
}

export const assessNotices: Assessor<'notices'> = (view, treatment, duty) => {
  const all = noticesOf(view, treatment)
  if (!all) return toldByApplication
  const found = all.find(
    ({ asked }) => asked.when === 'before' && asked.rulebook === duty.rulebook && asked.duty === duty.name,
  )
  if (found) return together(partsOfNotice(view, found))
  return (
    whyNotOwed(view, treatment, 'notices', duty) ??
    notChecked(`its term \`${duty.says.lead}\` cannot be read`, 'lead')
  )
}

/** What the records show of one notice: that there is one, when it was sent, what it said. */
export function partsOfNotice(view: SiteView, found: NoticeAssessment): Part[] {
  const { asked } = found
  const due = dueWords(asked.term, asked.latest ? momentText(view.district, asked.latest) : '')
  switch (found.told) {
    case 'nobody':
      return [
        {
          outcome: 'not shown',
          why: `no notice to ${asked.group} is recorded; it was due ${due}`,
          absent: ['notice'],
        },
      ]
    case 'too few':
      return [
        {
          outcome: 'not shown',
          why: `the notice on record went to those who asked; all ${asked.group} are to be told`,
          records: [found.notice.file],
        },
      ]
    case 'nobody to tell':
      return [
        {
          outcome: 'shown',
          why: 'the record shows nobody on the list of those who asked',
          records: [found.notice.file],
        },
      ]
    case 'enough': {
      const { notice, timing, contents } = found
      const records = [notice.file]
      const sent = `sent ${sentText(view, notice)} to ${notice.data.sent.to}`
      const hours = notice.data.sent.at === undefined ? 'sent.at of the notice' : 'time'
      const late =
        timing.amiss === 'early' && asked.earliest
          ? `not before ${momentText(view.district, asked.earliest)}`
          : `due ${due}`
      const uncounted = notCounted(view, found.treatment, asked.term, asked.latest)
      if (uncounted !== undefined && timing.outcome === 'shown')
        return [
          {
            outcome: 'cannot be checked',
            why: `${sent}; ${asked.term} cannot be counted: ${uncounted}`,
            absent: ['calendar of district.yaml'],
            records,
          },
          ...partsOfContents(contents, asked.says, records),
        ]
      return [
        {
          outcome: outcomeOf(timing.outcome),
          why: timing.outcome === 'shown' ? sent : `${sent}; ${late}`,
          absent: timing.outcome === 'not recorded' ? [hours] : [],
          records,
        },
        ...partsOfContents(contents, asked.says, records),
      ]
    }
  }
}

/** What a notice or sign said, held against what it had to say. */
export function partsOfContents(
  { outcome, missing, recorded }: ContentsShown,
  asked: readonly string[],
  records: readonly string[],
): Part[] {
  if (asked.length === 0) return []
  if (outcome === 'shown') return [{ outcome: 'shown', why: 'it says what is asked', records }]
  const lacks = missing.join(', ')
  return recorded === 'as a file'
    ? [
        {
          outcome: 'cannot be checked',
          why: `its text is kept as a file; the record does not list that it says ${lacks}`,
          absent: ['says'],
          records,
        },
      ]
    : [{ outcome: 'not shown', why: `it is not recorded to say ${lacks}`, absent: ['says'], records }]
}
