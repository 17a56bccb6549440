import { createHash } from 'node:crypto'
import type { CacheFolder } from '../files/cache-folder.js'
import type { Stamps } from '../files/stamps.js'
import type { DistrictView } from '../ledger/district-view.js'
import type { ReadOptions } from '../ledger/read-ledger.js'
import type { Inventory } from '../ledger/read-records.js'
import type { Use } from '../ledger/watched-district.js'
import { siteOfPath } from '../records/paths.js'
import type { LocatedResult } from './located-result.js'

/** What was found at the sites of a ledger the last time, as far as it still holds. */
export interface SiteMemory {
  recall(site: string): LocatedResult | undefined
  keep(site: string, found: LocatedResult): void
}

interface Kept extends LocatedResult {
  readonly uses: readonly (readonly [Use, string])[]
}

/** What a result holds for, beside the files it was made from. */
export interface Judging extends ReadOptions {
  /** Names the program in the very state it is in. */
  readonly program: string
}

/**
 * A result holds again while the files of the site, everything it was seen to use, and what every site leans on have the stamps
 * they had, the program is the same, and it is asked for the same day: what is overdue depends on the day.
 */
export function siteMemory(
  folder: CacheFolder,
  stamps: Stamps,
  { inventory, district }: { readonly inventory: Inventory; readonly district: DistrictView },
  { program, asOf, asOfIsToday }: Judging,
): SiteMemory {
  const stampOf = stampsOfUses(stamps, inventory, district)
  const common = [stampOf('district/*'), stampOf('rulebook/*')]
  const keyOf = (site: string) => {
    const parts = [stamps.groups.get(site), ...common]
    return parts.includes(undefined)
      ? undefined
      : JSON.stringify([program, asOf, asOfIsToday, site, ...parts])
  }
  return {
    recall(site) {
      const key = keyOf(site)
      const text = key === undefined ? undefined : folder.read(nameOf(site))
      if (key === undefined || !text?.startsWith(`${key}\n`)) return undefined
      const kept = JSON.parse(text.slice(key.length + 1)) as Kept
      return kept.uses.every(([use, stamp]) => stampOf(use) === stamp) ? kept : undefined
    },
    keep(site, { result, spots }) {
      const key = keyOf(site)
      const uses = result.uses.map((use) => [use, stampOf(use)] as const)
      if (key === undefined || uses.some(([, stamp]) => stamp === undefined)) return
      folder.write(nameOf(site), `${key}\n${JSON.stringify({ uses, result, spots })}`)
    },
  }
}

const nameOf = (site: string) => `sites/${site}`

/** Stamps of what a site uses; undefined where one is not to be relied on. */
function stampsOfUses(
  stamps: Stamps,
  inventory: Inventory,
  district: DistrictView,
): (use: Use) => string | undefined {
  const fileOf = new Map(inventory.district.map(({ kind, id, file }) => [`${kind}/${id}`, file]))
  const known = new Map<Use, string | undefined>()
  const together = (files: readonly string[]) => {
    const parts = files.map((file) => [file, stamps.files.get(file)])
    if (parts.some(([, stamp]) => stamp === undefined)) return undefined
    return sumOf(parts)
  }
  const stampOf = (use: Use): string | undefined => {
    if (use === 'sites') return [...inventory.sites.keys()].sort().join(' ')
    if (use === 'register') return sumOf(district.register)
    if (use === 'district records') return together(inventory.district.map(({ file }) => file))
    if (use.endsWith('/*')) {
      const kind = use.slice(0, -2)
      return together(inventory.district.filter((path) => path.kind === kind).map(({ file }) => file))
    }
    if (!use.startsWith('file:')) {
      const file = fileOf.get(use)
      return file === undefined ? 'no such record' : stamps.files.get(file)
    }
    // A file that is not listed may be hidden or behind a link, and change without a sign.
    const file = use.slice('file:'.length)
    return stamps.files.get(file) ?? stamps.groups.get(siteOfPath(file) ?? '')
  }
  return (use) => {
    if (!known.has(use)) known.set(use, stampOf(use))
    return known.get(use)
  }
}

function sumOf(told: unknown): string {
  return createHash('sha1').update(JSON.stringify(told)).digest('base64')
}
