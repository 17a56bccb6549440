import { getOrMake } from '../../ledger/get-or-make.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import type { PostingAssessment, SignsShown } from '../../rules/notices/assess-posting.js'
import { postingAssessments } from '../../rules/notices/assess-posting.js'
import { momentText } from '../../rules/notices/moments.js'
import { dueWords } from '../../rules/notices/words.js'
import type { Assessor, Part } from './held.js'
import { notChecked, outcomeOf, together } from './held.js'
import { noticesOf, partsOfContents, toldByApplication, whyNotOwed } from './notices.js'

const known = new WeakMap<SiteView, ReadonlyMap<Treatment, readonly PostingAssessment[]>>()

export function postingsOf(view: SiteView, treatment: Treatment): readonly PostingAssessment[] {
  let found = known.get(view)
  if (!found) {
    const made = new Map<Treatment, PostingAssessment[]>()
    for (const one of postingAssessments(view)) getOrMake(made, one.treatment, () => []).push(one)
    found = made
    known.set(view, found)
  }
  return found.get(treatment) ?? []
}

export const assessPostings: Assessor<'postings'> = (view, treatment, duty) => {
  if (!noticesOf(view, treatment)) return toldByApplication
  const found = postingsOf(view, treatment).find(
    ({ asked }) => asked.when === 'before' && asked.rulebook === duty.rulebook && asked.duty === duty.name,
  )
  if (found) return together(partsOfPosting(view, found))
  return whyNotOwed(view, treatment, 'postings', duty) ?? notChecked('what it asks cannot be read')
}

/** What the records show of signs: that they hung, from when to when, where, how large, and what they said. */
export function partsOfPosting(view: SiteView, found: PostingAssessment): Part[] {
  const { asked, signs, gone, placesMissing, places } = found
  const due = dueWords(asked.term, asked.latest ? momentText(view.district, asked.latest) : '')
  if (signs.length === 0)
    return [
      {
        outcome: 'not shown',
        why: `no sign is recorded${due === '' ? '' : `; signs were due ${due}`}`,
        absent: ['posted'],
      },
    ]
  return [
    ...(placesMissing.length === 0
      ? []
      : [
          {
            outcome: outcomeOf(places),
            why: `no sign is recorded at ${placesMissing.join(', ')}`,
            absent: ['posted.at-the'],
          },
        ]),
    ...signs.flatMap((sign) => partsOfSigns(view, found, sign, due)),
    ...gone.flatMap((sign) => partsOfStay(view, found, sign)),
  ]
}

function partsOfSigns(view: SiteView, { asked }: PostingAssessment, sign: SignsShown, due: string): Part[] {
  const { posting, timing, size, contents, put } = sign
  const records = [posting.file]
  const up = `put up ${momentText(view.district, put)}`
  const { posted } = posting.data
  const hours = posted.at === undefined ? 'posted.at' : 'time'
  return [
    {
      outcome: outcomeOf(timing.outcome),
      why: timing.outcome === 'shown' ? up : `${up}; due ${due}`,
      absent: timing.outcome === 'not recorded' ? [hours] : [],
      records,
    },
    ...(asked.size === undefined
      ? []
      : [
          {
            outcome: outcomeOf(size),
            why:
              posted.size === undefined
                ? `its size is not recorded; asked is ${asked.size}`
                : `of ${posted.size}`,
            absent: posted.size === undefined ? ['posted.size'] : [],
            records,
          },
        ]),
    ...partsOfContents(contents, asked.says, records),
  ]
}

function partsOfStay(view: SiteView, { asked }: PostingAssessment, sign: SignsShown): Part[] {
  const { posting, down, stayed } = sign
  if (!asked.staysUntil) return []
  const until = momentText(view.district, asked.staysUntil)
  const records = [posting.file]
  if (!down)
    return [{ outcome: 'shown', why: `it stays until ${until}, and is not recorded as taken down`, records }]
  const hours = posting.data.posted['taken-down-at'] === undefined ? 'posted.taken-down-at' : 'time'
  return [
    {
      outcome: outcomeOf(stayed),
      why: `taken down ${momentText(view.district, down)}${stayed === 'shown' ? '' : `; it stays until ${until}`}`,
      absent: stayed === 'not recorded' ? [hours] : [],
      records,
    },
  ]
}
