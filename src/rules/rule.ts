import type { DistrictView } from '../ledger/district-view.js'
import type { ReadFault } from '../ledger/loaded.js'
import type { SiteDigest } from '../ledger/site-digest.js'
import type { SiteView } from '../ledger/site-view.js'
import type { Actor, Args, Citation, Day, Level, Place, RelatedPlace } from '../types.js'

/** One thing a rule found, before the engine adds what is the same for every finding of the rule. */
export interface Finding<A extends Args = Args> {
  /** Facts of this finding, from which `says` makes its sentence. */
  readonly args: A
  readonly at: Place
  readonly related?: readonly RelatedPlace[]
  /** First day on which it is true; also a day to come, for what will be overdue. */
  readonly from: Day
  /** First day on which it is no longer true, if a later record ended it. */
  readonly until?: Day
  /** Another level than the rule's own, such as a note where only common practice asks. */
  readonly level?: Level
  /** What this finding rests on, where that is more than the rule's own source. */
  readonly sources?: readonly Citation[]
  readonly actor?: Actor
  /** What tells two findings of this rule at the same place apart. */
  readonly identity?: readonly string[]
}

interface RuleFacts {
  /** Readable kebab-case, never used again once retired. */
  readonly id: string
  /** What is wrong, in a few words, without a particular case. */
  readonly title: string
  readonly level: Level
  /** Which day's facts and duties judge it. */
  readonly judgedOn: string
  /** Why it matters. */
  readonly why: string
  /** What to do about it; a line that can be pasted where there is one. */
  readonly remedy: string
  readonly source: Citation
  readonly actor: Actor
  /** True when something that should be there is not: such problems fill the report of gaps. */
  readonly gap: boolean
  /** Names of rulebook parameters it reads. */
  readonly parameters?: readonly string[]
  /** What to do so that it does not become true, in a few words; for rules that look ahead. */
  readonly asks?: (args: Args) => string
  /**
   * Small ledgers over the base in rules/base-ledger: files that replace or add to it, each under a line
   * `=== path`. In `failing` every guilty line ends in `# expect: rule-id`; `passing` has no problem at all.
   */
  readonly failing: string
  readonly passing: string
}

/** A departure found while reading: the reader reports faults as data, the rule only words them. */
export interface FileRule extends RuleFacts {
  readonly reach: 'file'
  readonly says: (args: Args) => string
  /** The finding of a read fault, if the fault is this rule's. */
  readonly judge: (fault: ReadFault) =>
    | {
        readonly args: Args
        readonly at: Place
        readonly identity?: readonly string[]
        readonly related?: readonly RelatedPlace[]
      }
    | undefined
}

export interface SiteRule extends RuleFacts {
  readonly reach: 'site'
  readonly says: (args: Args) => string
  readonly check: (view: SiteView) => Iterable<Finding>
  /** The same rule over the district's own records, where it holds for them too. */
  readonly checkDistrict?: (view: DistrictView) => Iterable<Finding>
}

export interface DistrictRule extends RuleFacts {
  readonly reach: 'district'
  readonly says: (args: Args) => string
  readonly check: (view: DistrictView, digests: readonly SiteDigest[]) => Iterable<Finding>
}

export type Rule = FileRule | SiteRule | DistrictRule

type Definition<R extends Rule, A extends Args, Check> = Omit<
  R,
  'reach' | 'says' | 'asks' | 'check' | 'checkDistrict' | 'judge'
> & {
  readonly says: (args: A) => string
  readonly asks?: (args: A) => string
} & Check

/** A rule over files as they are read. `A` ties the sentence to the arguments. */
export function fileRule<A extends Args>(
  rule: Definition<
    FileRule,
    A,
    {
      judge: (
        fault: ReadFault,
      ) => { args: A; at: Place; identity?: readonly string[]; related?: readonly RelatedPlace[] } | undefined
    }
  >,
): FileRule {
  return { reach: 'file', ...rule } as unknown as FileRule
}

/** A rule over the linked picture of one site. */
export function siteRule<A extends Args>(
  rule: Definition<
    SiteRule,
    A,
    {
      check: (view: SiteView) => Iterable<Finding<A>>
      checkDistrict?: (view: DistrictView) => Iterable<Finding<A>>
    }
  >,
): SiteRule {
  return { reach: 'site', ...rule } as unknown as SiteRule
}

/** A rule over the district's own records and the digests of its sites. */
export function districtRule<A extends Args>(
  rule: Definition<
    DistrictRule,
    A,
    { check: (view: DistrictView, digests: readonly SiteDigest[]) => Iterable<Finding<A>> }
  >,
): DistrictRule {
  return { reach: 'district', ...rule } as unknown as DistrictRule
}

export const commonPractice: Citation = { kind: 'practice', text: 'common practice, no source' }
export const ledgerFormat: Citation = { kind: 'program', text: 'the ledger format, schemas/README.md' }
