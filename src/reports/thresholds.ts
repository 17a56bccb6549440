import type { Source } from '../files/source.js'
import type { DistrictView } from '../ledger/district-view.js'
import type { Look } from '../ledger/evidence.js'
import { looksOf } from '../ledger/evidence.js'
import { readLedger } from '../ledger/read-ledger.js'
import type { SiteView } from '../ledger/site-view.js'
import { isoOf } from '../measure/calendar.js'
import type { Report, Row, Table } from '../types.js'
import { nextStep } from './next-step.js'
import { notExaminedOf } from './not-examined.js'
import type { ReportOptions } from './options.js'
import { isWanted } from './options.js'
import { pestName } from './pest-name.js'
import { governs, plansInForce } from './plans-in-force.js'
import { testOf } from './threshold-test.js'

interface Crossing {
  readonly site: string
  readonly area: string
  readonly pest: string
  readonly onOne: boolean
  readonly because: string
  readonly since: number
  readonly latest: Look
  readonly next: string
  readonly plan: string
  readonly files: readonly string[]
}

/** Why something cannot be told of one pest in one area. */
interface Untold {
  readonly site: string
  readonly pest: string
  readonly line: string
}

/**
 * Which action thresholds are crossed now, since when, on which evidence, and what the plan says next. A crossing
 * stands until a later look at the area falls below it; where one animal is enough, it comes first and no statistics
 * delay it.
 */
export function thresholdsReport(source: Source, options: ReportOptions): Report {
  const crossings: Crossing[] = []
  const untold: Untold[] = []
  const read = readLedger(source, options, (view) => {
    const found = crossingsOf(view)
    crossings.push(...found.crossings)
    untold.push(...found.untold)
  })
  const shown = crossings.filter((crossing) => isWanted(crossing, options)).sort(byUrgency)
  return {
    report: 'thresholds',
    title: 'What calls for action now',
    headline: headlineOf(shown),
    asOf: isoOf(options.asOf),
    facts: [],
    tables: [crossingTable(shown)],
    cautions: [
      'At or above the number means act; below it, keep watching, cleaning and closing gaps. A crossing ends only when the area was looked at again and was below.',
      'Before anything is applied: least hazard first, the label is the law, a licensed applicator where required, local code governs. This report authorises no application.',
      'Fresh droppings, nests of stinging insects and animals in traps can hurt people; keep pupils away and follow the usual precautions.',
    ],
    notExamined: [
      ...notExaminedOf(read),
      ...(read.district ? noPlanFor(read.district, options) : []),
      ...untold
        .filter((one) => isWanted(one, options))
        .map(({ line }) => line)
        .sort(),
    ],
    incomplete: read.notChecked.length > 0,
  }
}

/** Without a plan there is no threshold, and no row is no all-clear. */
function noPlanFor(district: DistrictView, { asOf, pest }: ReportOptions): string[] {
  const plans = plansInForce(district, asOf)
  if (plans.size === 0) return ['No plan is in force, so there is no threshold to cross.']
  if (pest === undefined || plans.has(pest)) return []
  return [`No plan for ${pestName(pest)} is in force, so it has no threshold to cross.`]
}

function crossingsOf(view: SiteView): { crossings: Crossing[]; untold: Untold[] } {
  const plans = plansInForce(view.district, view.asOf)
  const pestsOf = (area: string) =>
    [...plans.keys()].filter((pest) => governs(plans.get(pest), view.areas.get(area)))
  const looks = looksOf(view, pestsOf)
  const crossings: Crossing[] = []
  const untold: Untold[] = []
  for (const area of view.areas.values()) {
    if (area.from > view.asOf || (area.until !== undefined && area.until < view.asOf)) continue
    for (const pest of pestsOf(area.id)) {
      const span = plans.get(pest)
      const history = looks.get(`${area.id} ${pest}`)
      const latest = history?.at(-1)
      if (!span || !history || !latest) continue
      const test = testOf(span, area)
      const say = (why: string) =>
        untold.push({ site: view.id, pest, line: `${view.id} ${area.id}, ${pestName(pest)}: ${why}.` })
      if (test.cannotTell !== undefined) say(test.cannotTell)
      const run = test.crossingRun(history)
      if (!run) {
        if (test.cannotTell === undefined && latest.animals + latest.signs.length > 0 && !test.judges(latest))
          say(
            `${evidenceWords(latest)} on ${isoOf(latest.day)}, but no inspection or no usable reading of a device that is for it, by which its threshold could be judged`,
          )
        continue
      }
      const since = run.crossedAt.day
      crossings.push({
        site: view.id,
        area: area.id,
        pest,
        onOne: run.onOne,
        because: run.because,
        since,
        latest: run.latest,
        next: nextStep(view, span, area.id, pest, since, run.latest.animals),
        plan: `plans/${pest}.yaml`,
        files: [...new Set(run.looks.flatMap((look) => look.files))],
      })
    }
  }
  return { crossings, untold }
}

function byUrgency(a: Crossing, b: Crossing): number {
  if (a.onOne !== b.onOne) return a.onOne ? -1 : 1
  const key = (crossing: Crossing) => `${crossing.site} ${crossing.area} ${crossing.pest}`
  return a.since - b.since || (key(a) < key(b) ? -1 : 1)
}

function crossingTable(crossings: readonly Crossing[]): Table {
  return {
    id: 'crossed',
    title: 'Crossed now',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'area', title: 'area' },
      { id: 'pest', title: 'pest' },
      { id: 'threshold', title: 'threshold' },
      { id: 'since', title: 'since' },
      { id: 'evidence', title: 'latest evidence' },
      { id: 'seen-on', title: 'seen on' },
      { id: 'next', title: 'the plan says next' },
      { id: 'plan', title: 'plan', for: 'work' },
    ],
    rows: crossings.map(
      (crossing): Row => ({
        cells: {
          site: crossing.site,
          area: crossing.area,
          pest: pestName(crossing.pest),
          threshold: crossing.because,
          since: isoOf(crossing.since),
          evidence: evidenceWords(crossing.latest),
          'seen-on': isoOf(crossing.latest.day),
          next: crossing.next,
          plan: crossing.plan,
        },
        records: crossing.files,
      }),
    ),
    empty: 'No action threshold is crossed, as far as the areas were looked at.',
  }
}

function evidenceWords(look: Look): string {
  const parts: string[] = []
  if (look.caught > 0) parts.push(`${look.caught} caught`)
  if (look.animals > look.caught) parts.push(`${look.animals - look.caught} seen alive`)
  parts.push(...new Set(look.signs))
  return parts.join(', ')
}

function headlineOf(crossings: readonly Crossing[]): string {
  const oldest = [...crossings].sort((a, b) => a.since - b.since)[0]
  if (!oldest) return 'No action threshold is crossed, as far as the areas were looked at.'
  const onOne = crossings.filter((crossing) => crossing.onOne).length
  return `${crossings.length === 1 ? 'One threshold is' : `${crossings.length} thresholds are`} crossed, ${onOne} of them where one animal is enough; the oldest is ${pestName(oldest.pest)} in ${oldest.site} ${oldest.area}, since ${isoOf(oldest.since)}.`
}
