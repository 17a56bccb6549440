import { askedByRulebooks } from '../licences/asked-by-rulebooks.js'
import { underOwnRulebook } from '../own-rulebook.js'
import { siteRule } from '../rule.js'
import { statementAssessments } from './assess-emergency-statement.js'
import {
  emergencyDuty,
  gelInCracks,
  noticeDuties,
  noticeOf,
  signs,
  statedEmergency,
} from './example-ledgers.js'
import { mergedFaults } from './merge-faults.js'
import { allOf, listed } from './words.js'

type StatementArgs = { readonly missing: readonly ('signed' | 'prevention')[] }

const inWords = { signed: 'a signature', prevention: 'how the next one is prevented' } as const

const told = noticeOf(
  '2026-03-12',
  `sent: {to: everyone, at: 17:00, how: email, says: [trade-name, emergency-problem]}\n${signs({ at: 'at: 15:30' })}`,
)

export const emergencyWithoutStatement = siteRule<StatementArgs>({
  id: 'emergency-without-statement',
  title: 'the statement of an emergency lacks what it has to hold',
  level: 'error',
  judgedOn: 'the day of the application',
  why: 'What is done without notice has to be answered for by name, or every day becomes an emergency.',
  remedy:
    'Have whoever decided sign what happened and why it could not wait, and say how the next one is prevented: `emergency: {signed: 2026-03-12, prevention: eaves looked at every April}`.',
  source: askedByRulebooks('emergencies'),
  actor: 'coordinator',
  gap: true,
  says: ({ missing }) =>
    `The statement of this emergency does not show ${listed(missing.map((what) => inWords[what]))}.`,
  *check(view) {
    const faults = statementAssessments(view).flatMap(({ treatment, asked, missing, outcome }) =>
      outcome === 'shown'
        ? []
        : [
            {
              treatment,
              missing,
              citation: asked.citation,
              certain: true,
              at: { ...treatment.at('emergency'), onKey: true },
            },
          ],
    )
    for (const { faults: broken, finding } of mergedFaults(view, faults))
      yield { args: { missing: allOf(broken.map(({ missing }) => missing)) }, ...finding }
  },
  failing: `${underOwnRulebook(noticeDuties + emergencyDuty)}${gelInCracks(
    `${statedEmergency('')} # expect: emergency-without-statement`,
  )}${told}`,
  passing: `${underOwnRulebook(noticeDuties + emergencyDuty)}${gelInCracks(statedEmergency())}${told}`,
})
