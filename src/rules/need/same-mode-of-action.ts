import { getOrMake } from '../../ledger/get-or-make.js'
import { amountOf } from '../../ledger/parameters.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isPesticide } from '../../ledger/treatments.js'
import { civilOf } from '../../measure/calendar.js'
import type { RecordOf } from '../../records/kinds.js'
import { activeTable, pestTable } from '../../records/tables.js'
import type { ActiveClass } from '../../records/use-words.js'
import { levelFrom } from '../adopted.js'
import { baitApplication, sprayApplication } from '../example-applications.js'
import { sprayLabel } from '../label-use/example-ledgers.js'
import { siteRule } from '../rule.js'

const parameter = 'mode-of-action.months'

export const sameModeOfAction = siteRule<{
  groups: readonly string[]
  pests: readonly string[]
  areas: readonly string[]
  months: number
}>({
  id: 'same-mode-of-action',
  title: 'one pest was treated in the same way month after month',
  level: 'warning',
  judgedOn: 'the day of the treatment that completes the months',
  why: 'Insects that survive one mode of action breed; treated with it again and again, the whole population comes to survive it, whatever the brand.',
  remedy:
    'Change to a product of another main group of the mode of action scheme for the next months, and look for what keeps the pest coming: food, water, a gap.',
  source: {
    kind: 'published',
    text: 'Insecticide Resistance Action Committee, mode of action scheme, from memory; UF/IFAS ENY-989',
  },
  actor: 'coordinator',
  gap: false,
  parameters: [parameter],
  says: ({ groups, pests, areas, months }) =>
    `Mode of action group ${groups.join(' and ')} has now been used against ${pests.join(', ')} in ${areas
      .map((area) => `\`${area}\``)
      .join(', ')} in ${months} calendar months running.`,
  *check(view) {
    for (const { treatment, runs } of completed(view)) {
      const advice = view.district.parameters(parameter, treatment.day)
      if (!advice) continue
      const each = (what: (run: Run) => string) => [...new Set(runs.map(what))]
      yield {
        args: {
          groups: each(({ group }) => group),
          pests: each(({ pest }) => pestTable().get(pest)?.name ?? pest),
          areas: each(({ area }) => area),
          months: Math.max(...runs.map(({ months }) => months)),
        },
        at: treatment.at('product'),
        from: treatment.day,
        level: levelFrom(advice.sources, 'warning'),
        sources: advice.sources,
      }
    }
  },
  failing: `${sprayLabel('')}${sprayApplication('2026-01-15')}${sprayApplication('2026-02-12')}${sprayApplication(
    '2026-03-19',
    'product: spray-a # expect: same-mode-of-action',
  )}`,
  passing: `${sprayLabel('')}${sprayApplication('2025-12-18')}${sprayApplication('2026-01-15')}${baitApplication('2026-02-12')}${sprayApplication(
    '2026-03-19',
  )}`,
})

/** One mode of action, one pest and one area in calendar months without a gap. */
interface Run {
  readonly group: string
  readonly pest: string
  readonly area: string
  readonly months: number
}

/** Treatments that make a run long enough, once for each run; those before the records begin count towards it. */
function* completed(view: SiteView): Iterable<{ treatment: Treatment; runs: readonly Run[] }> {
  const running = new Map<string, { month: number; months: number; told: boolean }>()
  for (const treatment of view.treatments) {
    if (!treatment.product || !isPesticide(treatment)) continue
    const { year, month: ofYear } = civilOf(treatment.day)
    const month = year * 12 + ofYear
    const advice = view.district.parameters(parameter, treatment.day)
    const runs: Run[] = []
    for (const { group, pest, area } of usesOf(treatment)) {
      const run = getOrMake(running, `${group} ${pest} ${area}`, () => ({ month, months: 1, told: false }))
      if (month > run.month + 1) Object.assign(run, { months: 1, told: false })
      else if (month === run.month + 1) run.months += 1
      run.month = month
      const enough = advice !== undefined && run.months >= amountOf(advice.value)
      if (!enough || run.told || treatment.day < view.begins) continue
      run.told = true
      runs.push({ group, pest, area, months: run.months })
    }
    if (runs.length > 0) yield { treatment, runs }
  }
}

/** Everything a treatment adds to: each mode of action, against each pest, in each area. */
function* usesOf({ product, pests, areas }: Treatment): Iterable<Omit<Run, 'months'>> {
  for (const group of mainGroups(product?.data)) {
    for (const pest of new Set(pests)) {
      const known = pestTable().get(pest)?.group
      if (known === undefined || known === 'unidentified') continue
      for (const { id } of areas) yield { group, pest, area: id }
    }
  }
}

/** What acts on the outside of the insect, or in so many ways that hardly any insect becomes resistant; and what is no insecticide. */
const leftOut: ReadonlySet<ActiveClass | undefined> = new Set([
  'borate',
  'silica',
  'diatomaceous-earth',
  'rodenticide',
])

/**
 * Main groups of the active ingredients: 4A and 4D are both 4. A group printed on the label wins over the table.
 * Borates (8D), what is physical or unknown (UN, UNM) and what has no group do not count.
 */
function mainGroups(product: RecordOf<'product'> | undefined): ReadonlySet<string> {
  const groups = Object.entries(product?.['active-ingredients'] ?? {}).flatMap(([id, facts]) => {
    const known = activeTable().get(id)
    const group = facts['mode-of-action'] ?? known?.group
    const main = group === '8D' || leftOut.has(known?.class) ? undefined : /^[0-9]+/.exec(group ?? '')?.[0]
    return main === undefined ? [] : [main]
  })
  return new Set(groups)
}
