import { compareText } from '../ledger/compare-text.js'
import type { DistrictView } from '../ledger/district-view.js'
import { getOrMake } from '../ledger/get-or-make.js'
import { dayIn } from '../ledger/spans.js'
import { isoOf } from '../measure/calendar.js'
import type { DutySpell } from '../rules/licences/duty-spells.js'
import { dutySpells } from '../rules/licences/duty-spells.js'
import type { Tenure, TrainingDuty } from '../rules/licences/trained-spans.js'
import {
  holdsForEveryUse,
  inTimeThrough,
  lastTrained,
  tenuresOf,
  trainedSpans,
} from '../rules/licences/trained-spans.js'
import { trainingGapsOfCoordinators } from '../rules/licences/training-gaps.js'
import type { Day, Row, Table } from '../types.js'
import type { CourseAtUse } from './compliance-people-collect.js'
import type { Outcome } from './outcomes.js'
import { absentInWords, counted, daysInFull, daysInWords, eachDay, worstOf } from './outcomes.js'
import type { Period } from './period.js'

/** The courses that rulebooks ask for: of the coordinator at all times, of whoever applies on the days of use. */
export function trainingTable(uses: readonly CourseAtUse[], district: DistrictView, period: Period): Table {
  const groups = new Map<string, CourseAtUse[]>()
  for (const use of uses) {
    const { who, duty } = use
    getOrMake(groups, JSON.stringify([who, duty?.rulebook, duty?.name]), () => []).push(use)
  }
  const rows = [
    ...coordinatorRows(district, period),
    ...[...groups.values()]
      .map((group) => atUses(group, district, period))
      .sort((a, b) => compareText(String(a.cells.who), String(b.cells.who))),
  ]
  return {
    id: 'training',
    title: 'Courses that rulebooks ask for',
    columns: [
      { id: 'who', title: 'who' },
      { id: 'outcome', title: 'outcome' },
      { id: 'why', title: 'what the records show' },
      { id: 'id', title: 'id', for: 'work' },
      { id: 'course', title: 'course', for: 'work' },
      { id: 'last', title: 'last', for: 'work' },
      { id: 'due', title: 'good until', for: 'work' },
      { id: 'asked-of', title: 'asked of', for: 'work' },
      { id: 'asked-by', title: 'asked by', for: 'work' },
      { id: 'clause', title: 'clause', for: 'work' },
      { id: 'every', title: 'every', for: 'work' },
      { id: 'uses', title: 'uses', for: 'work', decimals: 0 },
      { id: 'days-not-shown', title: 'days of use not shown', for: 'work' },
    ],
    rows,
    empty: 'No rulebook in force asks for a course, and no use of a pesticide is recorded in this period.',
  }
}

const outcomeOf: Readonly<Record<CourseAtUse['is'], Outcome>> = {
  trained: 'shown',
  'in time': 'not applicable',
  lacking: 'not shown',
  'not in the ledger': 'cannot be checked',
  'not asked': 'not applicable',
  'not known': 'cannot be checked',
}

function atUses(group: readonly CourseAtUse[], district: DistrictView, period: Period): Row {
  const last = group[group.length - 1] as CourseAtUse
  const { who, duty } = last
  const person = district.people.get(who)
  const daysThat = (is: CourseAtUse['is']) => group.filter((use) => use.is === is).map(({ day }) => day)
  const part = (is: CourseAtUse['is'], words: (days: readonly Day[]) => string) => {
    const days = eachDay(daysThat(is))
    return days.length === 0 ? [] : [words(days)]
  }
  const why = [
    ...part('lacking', (days) => `none that counts on ${daysInWords(days)}`),
    ...part('not in the ledger', () => absentInWords(district, 'person', who)),
    ...part(
      'not known',
      (days) =>
        `on ${daysInWords(days)}: the product is not in the register, so whether it is a pesticide is not told`,
    ),
    ...part('trained', (days) => `counts on ${counted(days.length, 'day')} of use`),
    ...part('in time', (days) => `not yet due on ${counted(days.length, 'day')} of use`),
    ...part(
      'not asked',
      (days) => `no rulebook in force asks for a course on ${counted(days.length, 'day')} of use`,
    ),
  ]
  const course = courseCells(who, duty, district, period, last.begun)
  return {
    cells: {
      who: person?.data.name ?? who,
      ...course,
      outcome: worstOf(group.map(({ is }) => outcomeOf[is])),
      why: duty ? `${courseInWords(course)}: ${why.join('; ')}` : why.join('; '),
      uses: group.length,
      'days-not-shown': daysInFull(daysThat('lacking')),
    },
    records: [...new Set([...(person ? [person.file] : []), ...group.map(({ file: of }) => of)])],
  }
}

function courseCells(
  who: string,
  duty: TrainingDuty | undefined,
  district: DistrictView,
  { to }: Period,
  begun: Day,
  dutyBegan?: Day,
) {
  const person = district.people.get(who)
  if (!duty) return { course: null, last: null, due: null, id: who }
  const { course, every, who: askedOf } = duty.says
  const spans = (person ? trainedSpans(person, duty) : []).filter(({ on }) => on <= to)
  const last = lastTrained(spans, to)
  const first = person && inTimeThrough(duty, begun, dutyBegan)
  const due = spans.length > 0 ? Math.max(...spans.map(({ through }) => through)) : first
  return {
    course,
    last: last === undefined ? (person ? 'none' : null) : isoOf(last),
    due: due === undefined ? null : isoOf(due),
    id: who,
    'asked-of': askedOf,
    'asked-by': `${duty.rulebook}: ${duty.name}`,
    clause: duty.citation.text,
    every,
  }
}

/** `own-course, last on 2026-02-03, good until 2027-02-03`. */
function courseInWords({ course, last, due }: ReturnType<typeof courseCells>): string {
  const taken = last === 'none' ? ', none recorded' : last === null ? '' : `, last on ${last}`
  const until = due === null ? '' : last === 'none' ? `, first due by ${due}` : `, good until ${due}`
  return `${course ?? ''}${taken}${until}`
}

/** What is asked of the coordinator whatever is used, over the part of the period that the ledger answers for. */
function coordinatorRows(district: DistrictView, asked: Period): Row[] {
  const period = { from: Math.max(asked.from, district.recordsBegin), to: asked.to }
  const all = dutySpells(district, 'training')
  const beganOf = ({ rulebook, name }: TrainingDuty) =>
    Math.min(
      ...all.flatMap(({ duty }) =>
        duty.rulebook === rulebook && duty.name === name ? [dayIn(duty.says.from)] : [],
      ),
    )
  const spells = all.filter(
    (spell) =>
      spell.duty.says.who === 'coordinator' &&
      holdsForEveryUse(spell.duty) &&
      reaches(spell.from, spell.until, period),
  )
  if (spells.length === 0) return []
  const tenures = tenuresOf(district.district.data).filter(({ from, through }) =>
    reaches(from, through === undefined ? undefined : through + 1, period),
  )
  if (tenures.length === 0) return newestOfEach(spells).map((duty) => nobody(duty, district))
  const gaps = trainingGapsOfCoordinators(district)
  return tenures.flatMap((tenure) =>
    newestOfEach(
      spells.filter(({ from, until }) =>
        reaches(Math.max(from, tenure.from), until, {
          ...period,
          to: Math.min(period.to, tenure.through ?? period.to),
        }),
      ),
    ).map((duty) => ofTenure(tenure, duty, beganOf(duty), gaps, district, period)),
  )
}

/** Whether days from one to before another lie in a period. */
function reaches(from: Day, until: Day | undefined, period: Period): boolean {
  return from <= period.to && (until === undefined || until > period.from)
}

/** The version of each duty that was in force last. */
function newestOfEach(spells: readonly DutySpell<'training'>[]): TrainingDuty[] {
  const byName = new Map<string, DutySpell<'training'>>()
  for (const spell of spells) {
    const name = `${spell.duty.rulebook} ${spell.duty.name}`
    const known = byName.get(name)
    if (!known || spell.from > known.from) byName.set(name, spell)
  }
  return [...byName.values()].map(({ duty }) => duty)
}

function nobody(duty: TrainingDuty, { district }: DistrictView): Row {
  return {
    cells: {
      who: 'the coordinator',
      course: duty.says.course,
      outcome: 'not shown',
      why: 'nobody is named as coordinator in this period',
      'asked-of': duty.says.who,
      'asked-by': `${duty.rulebook}: ${duty.name}`,
      clause: duty.citation.text,
      every: duty.says.every,
    },
    records: [district.file],
  }
}

function ofTenure(
  { who, from, through, at }: Tenure,
  duty: TrainingDuty,
  /** First day of the first version of the duty. */
  began: Day,
  gaps: ReturnType<typeof trainingGapsOfCoordinators>,
  district: DistrictView,
  period: Period,
): Row {
  const person = district.people.get(who)
  const first = Math.max(period.from, from)
  const last = Math.min(period.to, through ?? period.to)
  const lacking = gaps.flatMap((gap) => {
    const isOfThis =
      gap.at.path[1] === at &&
      gap.args.course === duty.says.course &&
      gap.sources?.some(({ text }) => text === duty.citation.text)
    const start = Math.max(gap.from, first)
    const end = Math.min((gap.until ?? Number.POSITIVE_INFINITY) - 1, last)
    return isOfThis && start <= end
      ? [start === end ? `on ${isoOf(start)}` : `from ${isoOf(start)} to ${isoOf(end)}`]
      : []
  })
  const hasAny = person !== undefined && trainedSpans(person, duty).some(({ on }) => on <= last)
  const [outcome, why]: readonly [Outcome, string] = !person
    ? ['cannot be checked', absentInWords(district, 'person', who)]
    : lacking.length > 0
      ? ['not shown', `none that counts ${lacking.join(', ')}`]
      : hasAny
        ? ['shown', 'no day of this period without one that counts']
        : ['not applicable', 'the first course is not yet due']
  const course = courseCells(who, duty, district, period, from, began)
  return {
    cells: {
      who: `${person?.data.name ?? who}, coordinator`,
      ...course,
      outcome,
      why: `${courseInWords(course)}: ${why}`,
    },
    records: [district.district.file, ...(person ? [person.file] : [])],
  }
}
