import { runCheck } from '../check/run-check.js'
import type { Source } from '../files/source.js'
import { compareText } from '../ledger/compare-text.js'
import { onlySite } from '../ledger/one-site.js'
import { isoOf } from '../measure/calendar.js'
import { ruleById } from '../rules/all.js'
import type { Actor, Day, Problem, Report } from '../types.js'
import type { DueFacts } from './due-facts.js'
import { dueFactsOf } from './due-facts.js'
import { licencesEnding } from './due-licences.js'
import { plannedDue } from './due-planned.js'
import { dueTables } from './due-tables.js'
import { notExaminedOf } from './not-examined.js'
import type { ReportOptions } from './options.js'

export interface DueOptions extends ReportOptions {
  /** How many days ahead. */
  readonly days: number
}

/** One thing to do. */
export interface DueThing {
  /** Undefined for what is the district's. */
  readonly site: string | undefined
  readonly area: string | undefined
  /** Place in walking order; what is of no area comes first. */
  readonly order: number
  readonly what: string
  /** The device it is asked of, and what is asked when several are named together. */
  readonly device?: { readonly id: string; readonly askedOf: (devices: string) => string }
  /** Last day on which it is in time; undefined for what waits for the next visit. */
  readonly by: Day | undefined
  /** In words, for what has no such day. */
  readonly when: string | undefined
  readonly actor: Actor
  readonly keys: string | undefined
  readonly letInBy: string | undefined
  /** The rule that would speak, where one would. */
  readonly rule: string | undefined
  readonly files: readonly string[]
}

/**
 * Everything due until a day, in walking order: the problems that are true already or become true unless someone acts, and
 * what waits for the next visit. It has no rules of its own.
 */
export function dueReport(source: Source, options: DueOptions): Report {
  const { asOf, days } = options
  const wanted = options.site === undefined ? source : onlySite(source, options.site)
  const sites: DueFacts[] = []
  const checked = runCheck(wanted, options, (view) => sites.push(dueFactsOf(view)))
  const bySite = new Map(sites.map((facts) => [facts.site, facts]))
  const things = [
    ...checked.problems.flatMap((problem) => thingOf(problem, bySite, asOf, days)),
    ...sites.flatMap((facts) => waitingThings(facts)),
    ...sites.flatMap((facts) => plannedThings(source, facts, asOf, days)),
    ...licenceThings(checked.district, sites, asOf, days),
  ].sort(inWalkingOrder)
  return {
    report: 'due',
    title: 'What is due',
    headline: headlineOf(things, options, checked.notChecked.length > 0),
    asOf: isoOf(asOf),
    period: { from: isoOf(asOf), to: isoOf(asOf + days) },
    facts: [],
    tables: dueTables(things, asOf),
    cautions: [
      'In walking order: sites by name, areas as site.yaml lists them. Overdue is what `doorsweep check` says today; due is what it would say unless someone acts.',
      'A planned application waits for its notice, sign and licence: `doorsweep precheck` says which. Nothing here permits one.',
    ],
    notExamined: notExaminedOf(checked),
    incomplete: checked.notChecked.length > 0,
  }
}

function thingOf(
  problem: Problem,
  bySite: ReadonlyMap<string, DueFacts>,
  asOf: Day,
  days: number,
): DueThing[] {
  const asks = ruleById(problem.rule)?.asks
  const by = problem.from - 1
  if (
    !asks ||
    by > asOf + days ||
    (problem.until !== undefined && problem.until <= Math.max(asOf, problem.from))
  )
    return []
  const facts = problem.site === undefined ? undefined : bySite.get(problem.site)
  const { device } = problem.args
  return [
    {
      ...placeIn(facts, areaOf(problem, facts)),
      what: asks(problem.args),
      ...(typeof device === 'string'
        ? { device: { id: device, askedOf: (devices) => asks({ ...problem.args, device: devices }) } }
        : {}),
      by,
      when: undefined,
      actor: problem.actor,
      rule: problem.rule,
      files: [problem.at.file],
    },
  ]
}

function areaOf({ args: { area, device }, at }: Problem, facts: DueFacts | undefined): string | undefined {
  if (typeof area === 'string') return area
  return (typeof device === 'string' ? facts?.areaOfDevice.get(device) : undefined) ?? facts?.areaAt(at)
}

function placeIn(
  facts: DueFacts | undefined,
  area: string | undefined,
): Pick<DueThing, 'site' | 'area' | 'order' | 'keys' | 'letInBy'> {
  const order = facts?.areas.findIndex(({ id }) => id === area) ?? -1
  const found = facts?.areas[order]
  return {
    site: facts?.site,
    area: found?.id,
    order,
    keys: found?.keys,
    letInBy: found?.letInBy,
  }
}

function waitingThings(facts: DueFacts): DueThing[] {
  return facts.waiting.map(({ area, what, when, file }) => ({
    ...placeIn(facts, area),
    what,
    by: undefined,
    when: when ?? 'next visit',
    actor: 'technician',
    rule: undefined,
    files: [file],
  }))
}

function plannedThings(source: Source, facts: DueFacts, asOf: Day, days: number): DueThing[] {
  return facts.later.flatMap((file) =>
    plannedDue(source, facts.site, file, asOf)
      .filter(({ lastDay }) => lastDay <= asOf + days)
      .map(({ what, lastDay, rule }) => ({
        ...placeIn(facts, undefined),
        what,
        by: lastDay,
        when: undefined,
        actor: 'coordinator' as const,
        rule,
        files: [file],
      })),
  )
}

function licenceThings(
  district: Parameters<typeof licencesEnding>[0] | null,
  sites: readonly DueFacts[],
  asOf: Day,
  days: number,
): DueThing[] {
  if (!district) return []
  const last = new Map<string, Day>()
  for (const { lastActed } of sites)
    for (const [who, day] of lastActed) last.set(who, Math.max(day, last.get(who) ?? day))
  return licencesEnding(district, last, asOf)
    .filter(({ until }) => until <= asOf + days)
    .map(({ who, name, until, file }) => ({
      ...placeIn(undefined, undefined),
      what: `record the renewal of the licence of ${who} (${name}), which ends`,
      by: until,
      when: undefined,
      actor: 'coordinator',
      rule: undefined,
      files: [file],
    }))
}

function inWalkingOrder(a: DueThing, b: DueThing): number {
  const last = Number.POSITIVE_INFINITY
  return (
    compareText(a.site ?? '', b.site ?? '') ||
    a.order - b.order ||
    (a.by ?? last) - (b.by ?? last) ||
    compareText(a.what, b.what) ||
    compareText(a.files.join(' '), b.files.join(' '))
  )
}

function headlineOf(things: readonly DueThing[], { asOf, days }: DueOptions, isIncomplete: boolean): string {
  const overdue = things.filter(({ by }) => by !== undefined && by < asOf).length
  const places = new Set(things.flatMap(({ site }) => site ?? [])).size
  if (things.length === 0)
    return isIncomplete
      ? `Nothing is known to be due within ${days} days, but not everything could be read.`
      : `Nothing is due within ${days} days.`
  const many = things.length === 1 ? 'One thing is' : `${things.length} things are`
  const late =
    overdue === 0
      ? 'none overdue'
      : overdue < things.length
        ? `${overdue} of them overdue`
        : things.length === 1
          ? 'and it is overdue'
          : 'all of them overdue'
  return `${many} due within ${days} days${places > 1 ? ` at ${places} sites` : ''}, ${late}.`
}
