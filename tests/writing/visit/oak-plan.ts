import { readRecord } from '../../../src/files/read-record.js'
import { isoOf } from '../../../src/measure/calendar.js'
import { draftText } from '../../../src/writing/visit/draft.js'
import type { GivenOfVisit, VisitPlan } from '../../../src/writing/visit/plan.js'
import { planFrom } from '../../../src/writing/visit/plan.js'
import type { Session } from '../../../src/writing/visit/session.js'
import { answer, begun, nextQuestion } from '../../../src/writing/visit/session.js'
import { stepKey } from '../../../src/writing/visit/state.js'
import { oakView } from '../../ledger/small-site.js'

const people = {
  'people/okafor.yaml': 'name: Ada Okafor\nroles: [technician]\n',
  'people/lind.yaml': 'name: Tor Lind\nroles: [site-manager]\n',
  'people/marsh.yaml': 'name: Ines Marsh\nroles: [coordinator]\n',
}

/** Two boards and a snap trap in the kitchen, a board in room 1; a drip and a complaint wait. */
export const setUp = `
set:
  K1: {kind: sticky-trap, area: kitchen, for: [german-cockroach]}
  K2: {kind: sticky-trap, area: kitchen}
  K3: {kind: snap-trap, area: kitchen, marked-as: "#17"}
  R1: {kind: sticky-trap, area: room-1, for: [german-cockroach]}
conditions:
  sink-drip: {new: drip under the sink, area: kitchen, gives: water, owner: maintenance, by: 2026-03-26}
`
export const complaint = `
by: lind
from: staff
area: room-1
pest: house-mouse
says: droppings in the drawer
`

export function oakPlan(
  visits: Readonly<Record<string, string>> = { '2026-03-02': setUp },
  others: Readonly<Record<string, string>> = {},
  given: GivenOfVisit = { isToday: true, by: 'okafor' },
  day = '2026-04-07',
): VisitPlan {
  const view = oakView(
    visits,
    { ...people, 'sites/oak/complaints/2026-04-05-lind.yaml': complaint, ...others },
    day,
  )
  if (isoOf(view.asOf) !== day) throw new Error('the view is of another day')
  return planFrom(view, given)
}

/** A session after these answers; a complaint about one of them is a mistake of the test. */
export function answering(plan: VisitPlan, ...texts: readonly string[]): Session {
  return texts.reduce((session, text) => more(session, text), begun(plan))
}

export function more(session: Session, ...texts: readonly string[]): Session {
  let now = session
  for (const text of texts) {
    const next = answer(now, text)
    if ('complaint' in next) throw new Error(`${stepKey(nextQuestion(now))} ← ${text}: ${next.complaint}`)
    now = next.session
  }
  return now
}

export function complaintAbout(session: Session, text: string): string {
  const next = answer(session, text)
  return 'complaint' in next ? next.complaint : `taken: ${text}`
}

export const asks = (session: Session) => stepKey(nextQuestion(session))

/** What the record to be says, read back as the program reads any record. */
export function said(session: Session): Record<string, unknown> {
  const read = readRecord(Buffer.from(draftText(session.state.draft), 'utf8'))
  if ('faults' in read) throw new Error(JSON.stringify(read.faults))
  return read.data
}
