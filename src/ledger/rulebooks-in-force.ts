import type { RecordOf } from '../records/kinds.js'
import type { DutyOf, DutySection } from '../records/rulebook-duties.js'
import type { UseMatcher } from '../records/use-matcher.js'
import type { Citation, Day } from '../types.js'
import { getOrMake } from './get-or-make.js'
import { holdsOn, inForce } from './spans.js'

/** One duty of one rulebook, in the version of the day. */
export interface Duty<S extends DutySection> {
  readonly rulebook: string
  /** State of the rulebook, where it is one state's. */
  readonly state: string | undefined
  /** Its name within the section. */
  readonly name: string
  readonly says: DutyOf<S>
  readonly citation: Citation
}

export interface RulebooksInForce {
  /** Every duty of a section that the rulebooks in force on the day hold, rulebook by rulebook as the district lists them. */
  duties<S extends DutySection>(section: S, day: Day): readonly Duty<S>[]
  /** What a class of uses of a rulebook means on the day; undefined where it defines none of that name. */
  useClass(rulebook: string, name: string, day: Day): readonly UseMatcher[] | undefined
}

export function rulebooksInForce(
  district: RecordOf<'district'>,
  rulebooks: ReadonlyMap<string, RecordOf<'rulebook'>>,
): RulebooksInForce {
  const cache = new Map<string, readonly Duty<DutySection>[]>()
  return {
    duties: <S extends DutySection>(section: S, day: Day) => {
      if (cache.size > 20_000) cache.clear()
      return getOrMake(cache, `${section} ${day}`, () =>
        lookUp(district, rulebooks, section, day),
      ) as Duty<S>[]
    },
    useClass: (rulebook, name, day) => inForce(rulebooks.get(rulebook)?.uses?.[name], day)?.any,
  }
}

function lookUp(
  district: RecordOf<'district'>,
  rulebooks: ReadonlyMap<string, RecordOf<'rulebook'>>,
  section: DutySection,
  day: Day,
): Duty<DutySection>[] {
  const found: Duty<DutySection>[] = []
  for (const entry of district.rulebooks) {
    const rulebook = holdsOn(entry, day) ? rulebooks.get(entry.rulebook) : undefined
    for (const [name, versions] of Object.entries(rulebook?.[section] ?? {})) {
      const says = inForce(versions as DutyOf<DutySection>[], day)
      if (says)
        found.push({
          rulebook: entry.rulebook,
          state: rulebook?.state,
          name,
          says,
          citation: { kind: says.kind, text: says.source },
        })
    }
  }
  return found
}
