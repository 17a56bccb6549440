import type { Day } from '../../types.js'

/** Who is where and when, so that nobody is in two buildings at once. Minutes are counted from midnight. */
export interface Diary {
  /** Books a stretch of time if it is free, with the way between two sites on both sides. */
  readonly book: (person: string, day: Day, from: number, minutes: number) => boolean
  /** Books the first free stretch between two times of day; its start, or undefined when there is none. */
  readonly find: (
    person: string,
    day: Day,
    earliest: number,
    latest: number,
    minutes: number,
  ) => number | undefined
  /** How many stretches of a day are booked. */
  readonly booked: (person: string, day: Day) => number
  readonly forgetBefore: (day: Day) => void
}

const minutesBetweenSites = 20

interface Stretch {
  readonly from: number
  readonly until: number
}

export function emptyDiary(): Diary {
  const days = new Map<Day, Map<string, Stretch[]>>()
  const stretchesOf = (person: string, day: Day): Stretch[] => {
    const people = days.get(day) ?? new Map<string, Stretch[]>()
    days.set(day, people)
    const stretches = people.get(person) ?? []
    people.set(person, stretches)
    return stretches
  }
  const clash = (stretches: readonly Stretch[], from: number, minutes: number) =>
    stretches.find(
      (stretch) =>
        from < stretch.until + minutesBetweenSites && from + minutes > stretch.from - minutesBetweenSites,
    )
  const book = (person: string, day: Day, from: number, minutes: number) => {
    const stretches = stretchesOf(person, day)
    if (clash(stretches, from, minutes)) return false
    stretches.push({ from, until: from + minutes })
    return true
  }
  return {
    book,
    find(person, day, earliest, latest, minutes) {
      const stretches = stretchesOf(person, day)
      let from = earliest
      for (;;) {
        if (from + minutes > latest) return undefined
        const hindrance = clash(stretches, from, minutes)
        if (!hindrance) break
        from = hindrance.until + minutesBetweenSites
      }
      stretches.push({ from, until: from + minutes })
      return from
    },
    booked: (person, day) => days.get(day)?.get(person)?.length ?? 0,
    forgetBefore(day) {
      for (const past of days.keys()) if (past < day) days.delete(past)
    },
  }
}
