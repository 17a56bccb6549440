import type { Treatment } from '../../ledger/treatments.js'
import { assessStatement } from '../../rules/notices/assess-emergency-statement.js'
import { emergencyDuties } from '../../rules/notices/duties-in-emergency.js'
import type { Assessor, Part } from './held.js'
import { notApplicable, notChecked, together } from './held.js'
import { noticesOf, partsOfNotice, toldByApplication } from './notices.js'
import { partsOfPosting, postingsOf } from './postings.js'

/** Notice, sign and statement of an emergency, where one is stated. */
export const assessEmergencies: Assessor<'emergencies'> = (view, treatment, duty) => {
  const notices = noticesOf(view, treatment)
  if (!notices) return toldByApplication
  if (!treatment.application?.emergency) return notApplicable(whyNone(treatment))
  const isOf = ({ rulebook, name }: { readonly rulebook: string; readonly name: string }) =>
    rulebook === duty.rulebook && name === duty.name
  const asked = emergencyDuties(view, treatment).find(isOf)
  if (!asked)
    return notApplicable('the notices and signs whose place it takes would not have been owed for this use')
  const isAskedAfter = ({
    asked: { rulebook, duty: name, when },
  }: {
    asked: { rulebook: string; duty: string; when: string }
  }) => when !== 'before' && isOf({ rulebook, name })
  const parts: Part[] = [
    ...notices.filter(isAskedAfter).flatMap((found) => partsOfNotice(view, found)),
    ...postingsOf(view, treatment)
      .filter(isAskedAfter)
      .flatMap((found) => partsOfPosting(view, found)),
  ]
  if (asked.says.statement !== undefined || asked.says.prevention !== undefined) {
    const { missing } = assessStatement(treatment, asked)
    parts.push(
      missing.length === 0
        ? { outcome: 'shown', why: 'the emergency is stated as asked' }
        : {
            outcome: 'not shown',
            why: `the statement does not show ${missing.map((what) => words[what]).join(' and ')}`,
            absent: missing.map((what) => `emergency.${what}`),
          },
    )
  }
  return parts.length === 0 ? notChecked('what it asks cannot be read') : together(parts)
}

const words = { signed: 'a signature', prevention: 'how the next one is prevented' } as const

function whyNone({ how }: Treatment): string {
  return how === 'application' ? 'no emergency is stated' : 'bait in a device states no emergency'
}
