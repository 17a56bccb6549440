import { askedByRulebooks } from '../licences/asked-by-rulebooks.js'
import { underOwnRulebook } from '../own-rulebook.js'
import { siteRule } from '../rule.js'
import { noticeAssessments } from './assess-notice.js'
import type { ContentsShown } from './contents.js'
import { gelInCracks, noticeDuties, noticeOf } from './example-ledgers.js'
import { mergedFaults } from './merge-faults.js'
import { allOf, listed } from './words.js'

export type IncompleteArgs = {
  readonly missing: readonly string[]
  readonly recorded: ContentsShown['recorded']
}

/** The same sentence for notices and for signs. */
export function incompleteWords(
  what: string,
  { missing, recorded }: { readonly missing: readonly string[]; readonly recorded: string },
): string {
  if (recorded === 'listed') return `${what} leaves out what is asked: ${listed(missing)}.`
  const rest = `${listed(missing)} ${missing.length === 1 ? 'is' : 'are'} asked`
  return recorded === 'nowhere'
    ? `The record does not tell what ${what.toLowerCase()} said; ${rest}.`
    : `${what} is kept as a file, but the record does not show what it says; ${rest}.`
}

export const noticeIncomplete = siteRule<IncompleteArgs>({
  id: 'notice-incomplete',
  title: 'a notice did not say everything it has to say, or the record does not show that it did',
  level: 'error',
  judgedOn: 'the day of the application',
  why: 'A notice that leaves out the product, the place or the day cannot be acted on.',
  remedy:
    'Hold the notice that was sent against the words here, and list what it said: `says: [trade-name, registration, location, date, reason]`. What it did not say, send after it and write that as a notice of its own.',
  source: askedByRulebooks('notices'),
  actor: 'coordinator',
  gap: true,
  says: (args) => incompleteWords('This notice', args),
  *check(view) {
    const faults = noticeAssessments(view).flatMap((told) => {
      if (told.told !== 'enough' || told.contents.outcome === 'shown') return []
      // What was sent afterwards is told as that.
      if (told.timing.amiss === 'after the application') return []
      const { treatment, asked, notice, contents } = told
      const certain = contents.outcome === 'not shown'
      const at =
        contents.recorded === 'listed'
          ? { file: notice.file, path: ['sent', 'says'] }
          : { file: notice.file, path: ['sent'], onKey: true }
      return [{ treatment, contents, citation: asked.citation, certain, at, record: notice.file }]
    })
    for (const { strictest, faults: broken, finding } of mergedFaults(view, faults))
      yield {
        args: {
          missing: allOf(broken.map(({ contents }) => contents.missing)),
          recorded: strictest.contents.recorded,
        },
        ...finding,
      }
  },
  failing: `${underOwnRulebook(noticeDuties)}${gelInCracks()}${noticeOf(
    '2026-03-09',
    `
sent:
  to: everyone
  at: 15:40
  how: email
  says: [trade-name] # expect: notice-incomplete
`,
  )}`,
  passing: `${underOwnRulebook(noticeDuties)}${gelInCracks()}${noticeOf(
    '2026-03-09',
    'sent: {to: everyone, at: 15:40, how: email, says: [trade-name, date]}',
  )}`,
})
