import { askedByRulebooks } from '../licences/asked-by-rulebooks.js'
import { underOwnRulebook } from '../own-rulebook.js'
import { siteRule } from '../rule.js'
import { noticeAssessments } from './assess-notice.js'
import { gelInCracks, noticeDuties, noticeOf } from './example-ledgers.js'
import { mergedFaults } from './merge-faults.js'
import { dayAfterTerm } from './moments.js'
import { groupWords } from './words.js'

type TooFewArgs = { readonly groups: string }

export const noticeToTooFew = siteRule<TooFewArgs>({
  id: 'notice-to-too-few',
  title: 'only those who asked were told where all are to be',
  level: 'error',
  judgedOn: 'the day of the application',
  why: 'Whoever never heard that one can ask is not on the list, and is the one who is not told.',
  remedy:
    'If everyone was told, mend the record: `sent: {to: everyone}`, or `all parents`, or `all staff`. Else tell the others now, and write that as a notice of its own.',
  source: askedByRulebooks('notices'),
  actor: 'coordinator',
  gap: true,
  says: ({ groups }) => `This notice is recorded as sent to those who asked; all ${groups} are to be told.`,
  *check(view) {
    const faults = noticeAssessments(view).flatMap((assessment) => {
      if (assessment.told !== 'too few') return []
      const { treatment, asked, notice } = assessment
      const at = { file: notice.file, path: ['sent', 'to'] }
      return [{ treatment, asked, citation: asked.citation, certain: true, at, record: notice.file }]
    })
    for (const { strictest, faults: broken, finding } of mergedFaults(view, faults)) {
      const { asked, treatment } = strictest
      // Until the term of an emergency has passed, the others can still be told in time.
      const inTerm = asked.when === 'after an emergency'
      yield {
        args: { groups: groupWords(broken.map((fault) => fault.asked)) },
        ...finding,
        ...(inTerm ? { from: dayAfterTerm(view.district, asked, treatment.day) } : {}),
      }
    }
  },
  failing: `${underOwnRulebook(noticeDuties)}${gelInCracks()}${noticeOf(
    '2026-03-09',
    `
sent:
  to: those who asked # expect: notice-to-too-few
  at: 15:40
  how: email
  says: [trade-name, date]
`,
  )}`,
  passing: `${underOwnRulebook(noticeDuties.replaceAll('reach: all', 'reach: all or those who asked'))}${gelInCracks()}${noticeOf(
    '2026-03-09',
    'sent: {to: those who asked, at: 15:40, how: email, says: [trade-name, date]}',
  )}`,
})
