import { questionOf } from '../writing/visit/questions.js'
import type { Answer, Session } from '../writing/visit/session.js'
import { answer, nextQuestion, undone } from '../writing/visit/session.js'
import { isFollowUp, stepKey } from '../writing/visit/state.js'
import type { Lines } from './visit-lines.js'

/** What a conversation needs of the world around it. */
export interface Around {
  readonly lines: Lines
  /** Keeps an answer; when it returns, the answer is on the disk. */
  readonly keep: (answer: Answer) => void
  readonly keepUndone: () => void
  /** The time of day. */
  readonly now: () => string
  /** Whether the visit is of this very day, so that the clock can tell its times. */
  readonly isStillToday: (session: Session) => boolean
  /** Problems of the record as far as it goes, one line each. */
  readonly wrongSoFar: (session: Session) => readonly string[]
  /** Files named so far that are not there yet. */
  readonly filesNotThere: (session: Session) => readonly string[]
  /** Shows the whole record and what it would bring; says whether it can be written. */
  readonly review: (session: Session) => boolean
  /** Writes it; false when it could not be, which it then has said. */
  readonly write: (session: Session) => boolean
}

export type Ending = 'written' | 'stopped' | 'ended' | 'interrupted'

/** Asks until the record is written, or no one answers any more. */
export async function converse(begun: Session, around: Around): Promise<Ending> {
  const { lines } = around
  const told = new Set<string>()
  let session = begun
  let toldOf = begun
  let canWrite = false
  let isNew = true
  for (;;) {
    const question = questionOf(session, around.isStillToday(session))
    const isLast = nextQuestion(session).is === 'confirm'
    if (isNew && isLast) canWrite = around.review(session)
    else if (isNew) for (const line of question.above) lines.say(line)
    isNew = false
    const heard = await lines.ask(
      isLast && !canWrite ? 'It cannot be written so: u, go AREA, q; Enter looks again' : question.prompt,
    )
    if (heard.is !== 'line') return heard.is
    const text = heard.text.trim()
    if (text === 'q') return 'stopped'
    if (text === '?') {
      for (const line of question.help) lines.say(`  ${line}`)
      continue
    }
    if (text === 'u') {
      const before = takenBack(session, around)
      isNew = before !== session
      session = before
      toldOf = before
      continue
    }
    if (isLast && text === '') {
      // What hindered it may have been put right beside it, such as a photo that was not there yet.
      if (!canWrite) canWrite = around.review(session)
      else if (around.write(session)) return 'written'
      continue
    }
    const typed = text === '' && question.onEnter === 'now' ? around.now() : text
    const next = answer(session, typed)
    if ('complaint' in next) {
      lines.say(`  ${next.complaint}`)
      continue
    }
    keepLast(next.session, around)
    for (const line of next.session.state.understood) lines.say(`  ${line}`)
    // What is told in part cannot be judged yet.
    if (!isFollowUp(nextQuestion(next.session))) {
      tellWrong(toldOf, next.session, around, told)
      toldOf = next.session
    }
    isNew = stepKey(nextQuestion(session)) !== stepKey(nextQuestion(next.session)) || isLast
    session = next.session
  }
}

function keepLast({ answers }: Session, { keep }: Around): void {
  const last = answers.at(-1)
  if (last) keep(last)
}

function takenBack(session: Session, { lines, keepUndone }: Around): Session {
  const last = session.answers.at(-1)
  if (!last) {
    lines.say('  There is nothing to take back.')
    return session
  }
  keepUndone()
  lines.say(`  Taken back: ${last.text === '' ? 'Enter' : last.text} (${last.to})`)
  return undone(session)
}

/** After each area, and after each piece of work: what is wrong in what was told so far, each thing once. */
function tellWrong(before: Session, after: Session, around: Around, told: Set<string>): void {
  const { lines, wrongSoFar, filesNotThere } = around
  const tellOnce = (line: string) => {
    if (!told.has(line)) lines.say(line)
    told.add(line)
  }
  if (before.state.draft.files !== after.state.draft.files)
    for (const path of filesNotThere(after))
      tellOnce(`  ${path} is not there yet; put it there before the record is written.`)
  // At the end the whole record is looked at anyway.
  if (nextQuestion(after).is === 'confirm') return
  const areaOf = (session: Session) => {
    const step = nextQuestion(session)
    return 'area' in step ? step.area : undefined
  }
  const left = areaOf(before)
  if ((left !== undefined && left !== areaOf(after)) || hasMoreWork(before, after))
    for (const line of wrongSoFar(after)) tellOnce(line)
}

/** What is done with devices, plants and bait; most of it cannot be seen wrong from one area alone. */
const work = ['set', 'moved', 'pickedUp', 'putOut', 'takenUp', 'plants', 'supervisedBy'] as const

function hasMoreWork(before: Session, after: Session): boolean {
  return work.some((key) => before.state.draft[key] !== after.state.draft[key])
}
