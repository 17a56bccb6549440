import { isoOf } from '../../measure/calendar.js'
import type { Table } from '../../types.js'
import { counted, listInWords } from '../outcomes.js'
import { answered } from './answered.js'
import type { YearFacts } from './facts.js'
import { commandFor } from './facts.js'
import { pointIf } from './overlooked.js'
import { pick, rowsOf } from './pick.js'
import type { Answer } from './review.js'

/** Talks, flyers and lessons of the year, whom they reached, and the courses that rulebooks ask for. */
export function education(facts: YearFacts): Answer {
  const held = heldIn(facts)
  const sites = facts.sites.filter(({ id }) => facts.options.site === undefined || id === facts.options.site)
  const reached = (id: string) => held.some(({ data }) => data.sites === undefined || data.sites.includes(id))
  const without = sites.filter(({ id }) => !reached(id)).map(({ id }) => id)
  const courses = rowsOf(facts.reports.compliance, 'training')
  const notShown = courses.filter(({ cells }) => cells.outcome === 'not shown')
  return answered(facts, {
    id: 'education',
    question: 'How is staff education going?',
    answer: `${heldWords(held)}; ${courseWords(courses.length, notShown.length)}${
      held.length === 0 || without.length === 0
        ? ''
        : `; none is recorded for ${listInWords(without, 'sites')}`
    }.`,
    tables: [
      heldTable(facts, held),
      ...pick(facts, {
        report: 'compliance',
        table: 'training',
        columns: [...(facts.withParts.has('names') ? ['who'] : []), 'asked-of', 'outcome', 'why', 'course'],
      }).map((table) => ({
        ...table,
        columns: table.columns.map(({ for: _, ...column }) => column),
      })),
    ],
    commands: [commandFor(facts, 'compliance')],
    points: [
      ...pointIf(
        notShown.length,
        1,
        `${counted(notShown.length, 'course that a rulebook asks for is', 'courses that rulebooks ask for are')} not shown`,
      ),
      ...(held.length === 0
        ? pointIf(sites.length, 3, 'no talk, flyer, lesson or course is on record for this year')
        : pointIf(
            without.length,
            3,
            `no talk, flyer or lesson is recorded for ${listInWords(without, 'sites')}`,
          )),
    ],
  })
}

type Held = YearFacts['view']['education']

function heldIn({ view, year, options }: YearFacts): Held {
  return view.education
    .filter(({ day }) => year.from <= day && day <= Math.min(year.to, options.asOf))
    .filter(
      ({ data }) =>
        options.site === undefined || data.sites === undefined || data.sites.includes(options.site),
    )
    .sort((a, b) => a.day - b.day || (a.id < b.id ? -1 : 1))
}

function heldWords(held: Held): string {
  if (held.length === 0) return 'No talk, flyer, lesson or course is on record for this year'
  const told = held.filter(({ data }) => data.people !== undefined)
  const people = told.reduce((sum, { data }) => sum + (data.people ?? 0), 0)
  const isPartial = told.length < held.length
  const among =
    told.length === 0
      ? 'how many they reached is not told'
      : `with ${counted(people, 'person', 'people')}${isPartial ? ` in the ${told.length} that tell it` : ''}`
  const audiences = [...new Set(held.map(({ data }) => data.audience))].sort()
  return `${counted(held.length, 'talk, flyer, lesson or course', 'talks, flyers, lessons and courses')} ${among}, for ${listInWords(audiences, 'audiences')}`
}

function courseWords(asked: number, notShown: number): string {
  if (asked === 0) return 'no rulebook in force asks for a course'
  return notShown === 0
    ? `${asked === 1 ? 'the one course' : `all ${asked} courses`} that rulebooks ask of people ${asked === 1 ? 'is' : 'are'} shown or did not apply`
    : `${notShown} of ${asked} courses that rulebooks ask of people ${notShown === 1 ? 'is' : 'are'} not shown`
}

function heldTable({ shown }: YearFacts, held: Held): Table {
  return {
    id: 'education',
    title: 'Talks, flyers, lessons and courses of the year',
    columns: [
      { id: 'day', title: 'day' },
      { id: 'kind', title: 'how' },
      { id: 'topic', title: 'about what' },
      { id: 'audience', title: 'for whom' },
      { id: 'people', title: 'people', decimals: 0 },
      { id: 'sites', title: 'where' },
    ],
    rows: held.map(({ day, data, file }) => ({
      cells: {
        day: isoOf(day),
        kind: data.kind,
        topic: shown(data.topic),
        audience: data.audience,
        people: data.people ?? null,
        sites: data.sites?.join(', ') ?? 'the whole district',
      },
      records: [file],
    })),
    empty: 'None is on record.',
  }
}
