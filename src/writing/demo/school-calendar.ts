import { weekdayOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'
import { dateOf, dateText, dayOf, isWeekday, nthWeekday, weekdays } from './days.js'
import type { YamlMap } from './yaml.js'

export interface Closure {
  readonly name: string
  readonly first: Day
  readonly last: Day
}

export interface SchoolYear {
  readonly from: Day
  readonly until: Day
  readonly closures: readonly Closure[]
}

/** The invented district's year: from the day after Labor Day to the second Friday of June, with the usual breaks. */
export function schoolYear(autumn: number): SchoolYear {
  const christmas = dayOf(autumn, 12, 25)
  const winterMonday = christmas - weekdayOf(christmas) + 1
  const thanksgiving = nthWeekday(autumn, 11, weekdays.thursday, 4)
  const veterans = dayOf(autumn, 11, 11)
  const springMonday = nthWeekday(autumn + 1, 3, weekdays.monday, -1)
  const oneDay = (name: string, day: Day): Closure => ({ name, first: day, last: day })
  const closures = [
    ...(isWeekday(veterans) ? [oneDay('veterans-day', veterans)] : []),
    { name: 'thanksgiving', first: thanksgiving, last: thanksgiving + 1 },
    { name: 'winter-break', first: winterMonday, last: winterMonday + 11 },
    oneDay('january-holiday', nthWeekday(autumn + 1, 1, weekdays.monday, 3)),
    oneDay('february-holiday', nthWeekday(autumn + 1, 2, weekdays.monday, 3)),
    { name: 'spring-break', first: springMonday, last: springMonday + 4 },
    oneDay('memorial-day', nthWeekday(autumn + 1, 5, weekdays.monday, -1)),
  ]
  return {
    from: nthWeekday(autumn, 9, weekdays.monday, 1) + 1,
    until: nthWeekday(autumn + 1, 6, weekdays.friday, 2),
    closures,
  }
}

export interface SchoolCalendar {
  readonly years: readonly SchoolYear[]
  readonly isSchoolDay: (day: Day) => boolean
  /** A Monday to Friday on which a technician works: not a public holiday, school or no school. */
  readonly isWorkday: (day: Day) => boolean
}

/** School years that touch the days from `start` to `until`, looked up by day. */
export function schoolCalendar(start: Day, until: Day): SchoolCalendar {
  const years: SchoolYear[] = []
  for (let autumn = dateOf(start).year - 1; autumn <= dateOf(until).year + 1; autumn++) {
    years.push(schoolYear(autumn))
  }
  const margin = 400
  const school = new Uint8Array(until - start + 2 * margin)
  for (const year of years) {
    for (let day = year.from; day <= year.until; day++) {
      const closed = year.closures.some((closure) => day >= closure.first && day <= closure.last)
      if (isWeekday(day) && !closed) school[day - start + margin] = 1
    }
  }
  const holidays = new Set<Day>()
  for (let year = dateOf(start).year; year <= dateOf(until).year + 1; year++) {
    const independence = dayOf(year, 7, 4)
    holidays
      .add(independence)
      .add(dayOf(year, 1, 1))
      .add(dayOf(year, 12, 25))
      .add(dayOf(year, 12, 24))
    holidays
      .add(nthWeekday(year, 9, weekdays.monday, 1))
      .add(nthWeekday(year, 5, weekdays.monday, -1))
      .add(nthWeekday(year, 11, weekdays.thursday, 4))
  }
  return {
    years,
    isSchoolDay: (day) => school[day - start + margin] === 1,
    isWorkday: (day) => isWeekday(day) && !holidays.has(day),
  }
}

/** The school years as they stand in district.yaml on a day: those begun, the one running and the next. */
export function calendarRecord(calendar: SchoolCalendar, start: Day, day: Day): YamlMap[] {
  return calendar.years
    .filter((year) => year.until >= start && year.from <= day + 500)
    .map((year) => ({
      from: dateText(year.from),
      until: dateText(year.until),
      closed: Object.fromEntries(
        year.closures.map((closure) => [
          closure.name,
          closure.first === closure.last
            ? dateText(closure.first)
            : `${dateText(closure.first)} to ${dateText(closure.last)}`,
        ]),
      ),
    }))
}
