import type { Row, Table } from '../types.js'
import type { ChanceToNotice } from './coverage-chance.js'
import { chanceWanted, mostTrapsToAdd } from './coverage-chance.js'
import type { Watch } from './coverage-collect.js'
import type { JudgedWatch } from './coverage-needs.js'
import { compareWatches, placeCells, placeColumns } from './coverage-place.js'

/** Whether the next check would show a pest that stands just at its threshold. */
export function chanceTable(judged: readonly JudgedWatch[]): Table {
  const rows = judged
    .filter(({ watch: { plan, devices } }) => plan?.perTrap && !plan.onOne && devices > 0)
    .sort((a, b) => (a.chance?.chance ?? 2) - (b.chance?.chance ?? 2) || compareWatches(a.watch, b.watch))
  return {
    id: 'chance-to-notice',
    title: `If a pest stood just at its threshold: how likely one check catches any (${chanceWanted * 100} % would do)`,
    columns: [
      ...placeColumns,
      { id: 'threshold', title: 'act at' },
      { id: 'traps', title: 'traps', decimals: 0 },
      { id: 'every-shown', title: 'every', for: 'people' },
      { id: 'nights', title: 'interval of checks', unit: 'nights', decimals: 1, for: 'work' },
      { id: 'chance-shown', title: 'any', for: 'people' },
      { id: 'at-threshold-shown', title: 'reaches it', for: 'people' },
      { id: 'chance', title: 'chance of any', unit: '%', decimals: 1, for: 'work' },
      { id: 'chance-unclumped', title: 'chance if not clumped', unit: '%', decimals: 1, for: 'work' },
      {
        id: 'chance-at-threshold',
        title: 'chance that the reading is at the threshold',
        unit: '%',
        decimals: 1,
        for: 'work',
      },
      { id: 'more-shown', title: 'traps more', for: 'people' },
      { id: 'to-add', title: 'traps to add', unit: 'traps', decimals: 0, for: 'work' },
      { id: 'left-shown', title: 'or left for', for: 'people' },
      {
        id: 'nights-needed',
        title: 'nights with the present traps',
        unit: 'nights',
        decimals: 0,
        for: 'work',
      },
      { id: 'effort', title: 'effort of one check', unit: 'trap-nights', decimals: 1, for: 'work' },
      { id: 'expected', title: 'catch expected of it', unit: 'animals', decimals: 2, for: 'work' },
      { id: 'clumping', title: 'clumping (1/k)', decimals: 3, for: 'work' },
      { id: 'interval', title: 'interval', for: 'work' },
      { id: 'method', title: 'method', for: 'work' },
      { id: 'why', title: 'because', for: 'work' },
    ],
    shownToPeople: 15,
    rows: rows.map(chanceRow),
    empty:
      'No plan in force counts the catch of traps in an area where traps for its pest stand, so there is no chance to tell.',
  }
}

/** Where it cannot be told how often the traps are read, the row says so. */
function chanceRow({ watch, chance }: JudgedWatch): Row {
  return {
    cells: {
      ...placeCells(watch),
      threshold: watch.plan?.perTrap?.words ?? null,
      traps: watch.traps,
      ...(chance ? chanceCells(watch, chance) : untoldCells),
    },
    records: watch.catch.files.length > 0 ? watch.catch.files : watch.plan ? [watch.plan.file] : [],
  }
}

const untoldCells = {
  'chance-shown': 'cannot tell',
  why: 'cannot tell: the traps were not read in the period, and nothing says how often they should be',
}

function chanceCells(watch: Watch, chance: ChanceToNotice): Row['cells'] {
  const { clumping } = chance
  const percent = (share: number) => share * 100
  return {
    'every-shown': `${Number(chance.nights.toFixed(1))} nights`,
    nights: chance.nights,
    'chance-shown': chanceWords(chance.chance),
    'at-threshold-shown': chanceWords(chance.chanceAtThreshold),
    chance: percent(chance.chance),
    'chance-unclumped': percent(chance.chanceUnclumped),
    'chance-at-threshold': percent(chance.chanceAtThreshold),
    'more-shown':
      chance.toAdd === null ? `over ${mostTrapsToAdd}` : chance.toAdd === 0 ? 'none' : String(chance.toAdd),
    'to-add': chance.toAdd,
    'left-shown': leftWords(chance),
    'nights-needed': chance.nightsNeeded,
    effort: chance.effort,
    expected: chance.expected,
    clumping: clumping.known ? clumping.perMean : null,
    interval: watch.interval?.how ?? null,
    method: clumping.known
      ? 'zero term of the negative binomial (Anscombe 1949), clumping pooled over the ledger by moments (Breslow 1984)'
      : 'zero term of the Poisson law, catches taken as not clumped',
    why: whyWords(watch, chance),
  }
}

function whyWords({ traps, devices }: Watch, { clumping, enough, toAdd }: ChanceToNotice): string {
  const known = clumping.known
    ? ''
    : `; how catches of this pest clump cannot be told from so few, so the chance is the best that could be`
  if (traps === 0)
    return `${devices === 1 ? 'the device' : `the ${devices} devices`} there cannot catch now, or counts nothing${known}`
  if (enough) return `the chance is ${chanceWanted * 100} % or more${known}`
  return toAdd === null
    ? `less than ${chanceWanted * 100} %, and ${mostTrapsToAdd} traps more would not do${known}`
    : `less than ${chanceWanted * 100} %${known}`
}

function leftWords({ enough, nightsNeeded }: ChanceToNotice): string | null {
  if (enough || nightsNeeded === null) return null
  return nightsNeeded > 366 ? 'over a year' : `${nightsNeeded} nights`
}

/** Never 100 %, and never rounded up to what would do. */
function chanceWords(chance: number): string {
  const percent = Math.floor(chance * 100)
  if (chance > 0 && percent < 1) return 'under 1 %'
  return percent >= 99 ? 'over 99 %' : `${percent} %`
}
