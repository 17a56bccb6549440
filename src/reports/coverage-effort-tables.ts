import { isoOf } from '../measure/calendar.js'
import { exposureNeededToRuleOut } from '../measure/poisson-rate.js'
import type { Row, Table } from '../types.js'
import type { Watch } from './coverage-collect.js'
import type { Need } from './coverage-needs.js'
import { isSeenNotCaught } from './coverage-needs.js'
import {
  boundMethod,
  boundPerWeek,
  boundWords,
  compareWatches,
  effortWords,
  nightsWords,
  placeCells,
  placeColumns,
  seenOnWords,
} from './coverage-place.js'

const bound = { unit: 'per trap-week', decimals: 3, for: 'work' } as const
const effort = { unit: 'trap-nights', decimals: 0, for: 'work' } as const

/** Seen or complained of, and the devices that stand there, or stood there since, caught none. */
export function seenTable(watches: readonly Watch[], needs: readonly Need[]): Table {
  const told = new Set(needs.filter(({ kind }) => kind === 'seen-no-device').map(({ watch }) => watch))
  const rows = watches
    .filter((watch) => isSeenNotCaught(watch) && !told.has(watch))
    .sort((a, b) => lastSeenOf(b) - lastSeenOf(a) || compareWatches(a, b))
  return {
    id: 'seen-none-caught',
    title: 'Seen or complained of, and the devices there caught none',
    columns: [
      ...placeColumns,
      { id: 'last-seen', title: 'last seen' },
      { id: 'devices', title: 'devices now', decimals: 0 },
      { id: 'caught-shown', title: 'caught in nights', for: 'people' },
      { id: 'since-shown', title: 'since last seen', for: 'people' },
      { id: 'at-most-shown', title: 'up to, a trap-week', for: 'people' },
      { id: 'times', title: 'times', unit: 'complaints and sightings', decimals: 0, for: 'work' },
      { id: 'seen-on', title: 'seen or complained of', for: 'work' },
      { id: 'trap-nights', title: 'effort', ...effort },
      { id: 'at-most', title: 'could be up to', ...bound },
      { id: 'trap-nights-since', title: 'effort since last seen', ...effort },
      { id: 'at-most-since', title: 'could be up to, since last seen', ...bound },
      { id: 'method', title: 'method', for: 'work' },
      { id: 'why', title: 'because', for: 'work' },
    ],
    shownToPeople: 15,
    rows: rows.map(seenRow),
    empty: 'No pest was seen or complained of where the devices for it caught none.',
  }
}

const lastSeenOf = ({ seen }: Watch) => Math.max(...seen.map(({ day }) => day))

function seenRow(watch: Watch): Row {
  const { trapNights, trapNightsSince, files } = watch.catch
  return {
    cells: {
      ...placeCells(watch),
      'last-seen': isoOf(lastSeenOf(watch)),
      devices: watch.devices,
      'caught-shown': nightsWords(trapNights),
      'since-shown': nightsWords(trapNightsSince),
      'at-most-shown': boundWords(trapNights),
      times: watch.seen.length,
      'seen-on': seenOnWords(watch),
      'trap-nights': trapNights,
      'at-most': boundPerWeek(trapNights),
      'trap-nights-since': trapNightsSince,
      'at-most-since': boundPerWeek(trapNightsSince),
      method: boundMethod,
      why: effortWords(watch),
    },
    records: [...new Set([...watch.seen.map(({ file }) => file), ...files])],
  }
}

/**
 * What the devices of an area could have missed, where none was caught in the whole period. Where no bound can be told
 * because what stands there counts nothing, last.
 */
export function missedTable(watches: readonly Watch[]): Table {
  const countsNothing = ({ catch: { trapNights }, traps, fit }: Watch) =>
    trapNights === 0 && traps === 0 && fit > 0
  const rows = watches
    .filter(
      ({ plan, devices, catch: { caught, shown, read } }) =>
        plan && caught === 0 && !shown && (read || devices > 0),
    )
    .sort(
      (a, b) =>
        Number(countsNothing(a)) - Number(countsNothing(b)) ||
        Number(b.plan?.onOne) - Number(a.plan?.onOne) ||
        a.catch.trapNights - b.catch.trapNights ||
        compareWatches(a, b),
    )
  return {
    id: 'none-caught',
    title: 'None caught, and what could have been missed (where one is enough first, then least effort)',
    columns: [
      ...placeColumns,
      { id: 'on-one', title: 'one is enough' },
      { id: 'caught-shown', title: 'caught in nights', for: 'people' },
      { id: 'at-most-shown', title: 'up to, a trap-week', for: 'people' },
      { id: 'at-most-last-shown', title: 'by the last check', for: 'people' },
      { id: 'trap-nights', title: 'effort', ...effort },
      { id: 'at-most', title: 'could be up to', ...bound },
      { id: 'last-read', title: 'last read', for: 'work' },
      { id: 'last-trap-nights', title: 'effort of the last check', ...effort },
      { id: 'at-most-last', title: 'could be up to, by the last check alone', ...bound },
      { id: 'days-read', title: 'days read', unit: 'days', decimals: 0, for: 'work' },
      { id: 'threshold', title: 'act at', for: 'work' },
      { id: 'nights-missing', title: 'further effort to rule that out', ...effort },
      { id: 'method', title: 'method', for: 'work' },
      { id: 'why', title: 'because', for: 'work' },
    ],
    shownToPeople: 15,
    rows: rows.map(missedRow),
    empty: 'Every area in which devices stand for a pest of a plan caught some of it.',
  }
}

function missedRow(watch: Watch): Row {
  const { plan, catch: found } = watch
  const rate = plan?.onOne ? undefined : plan?.perTrap?.rate
  const needed = rate === undefined ? null : exposureNeededToRuleOut(rate)
  const last = found.last?.trapNights ?? 0
  return {
    cells: {
      ...placeCells(watch),
      'on-one': plan?.onOne ? 'yes' : 'no',
      'caught-shown': nightsWords(found.trapNights),
      'at-most-shown': boundWords(found.trapNights),
      'at-most-last-shown': boundWords(last),
      'trap-nights': found.trapNights,
      'at-most': boundPerWeek(found.trapNights),
      'last-read': found.last === undefined ? null : isoOf(found.last.day),
      'last-trap-nights': found.last?.trapNights ?? null,
      'at-most-last': boundPerWeek(last),
      'days-read': found.daysRead,
      threshold: rate === undefined ? null : (plan?.perTrap?.words ?? null),
      'nights-missing': needed === null ? null : Math.max(0, Math.ceil(needed - found.trapNights)),
      method: boundMethod,
      why:
        rate === undefined
          ? `${effortWords(watch)}; the plan states no rate of a trap that could be ruled out`
          : effortWords(watch),
    },
    records: found.files.length > 0 ? found.files : plan ? [plan.file] : [],
  }
}
