import type { DraftedApplication } from '../../check/precheck.js'
import type { OpenLedger } from '../find-ledger.js'
import type { Here } from '../runner.js'
import { UsageError } from '../usage-error.js'

/** What of an application can be said on the command line. */
export interface DraftFlags {
  readonly site?: string
  readonly rev?: string
  readonly by?: string
  readonly on?: string
  readonly word?: string
  readonly time?: string
  readonly product?: string
  readonly pest?: string
  readonly area?: string
  readonly method?: string
  readonly amount?: string
}

const needed = ['site', 'by', 'on', 'product', 'pest', 'area', 'method'] as const
const onlyWithoutFile = ['time', 'product', 'pest', 'area', 'method', 'amount'] as const

/** The draft in a file of the ledger, at its place there. */
export async function draftInLedger(
  file: string,
  flags: DraftFlags,
  ledger: OpenLedger,
): Promise<DraftedApplication> {
  refuseSaidTwice(flags)
  if (flags.on !== undefined || flags.by !== undefined || flags.word !== undefined)
    throw new UsageError(
      'Day and person of a record are in its name; --on, --by and --word do not go with it.',
    )
  const [asked = ''] = ledger.asked
  const path = await applicationPathOf(asked)
  if (!path)
    throw new UsageError(
      `${file} does not lie where an application does, as sites/<site>/applications/<date>-<who>.yaml; if it is a draft kept elsewhere, add --site.`,
    )
  const read = ledger.source.read(asked)
  if ('refused' in read)
    throw new UsageError(
      flags.rev !== undefined && read.refused === 'missing'
        ? `${asked} is not in the revision ${flags.rev}; for a draft that lies elsewhere add --site.`
        : `${file} cannot be read: it ${read.detail}.`,
    )
  return { path, text: await refuseCancelled(file, read.bytes) }
}

/** A draft kept elsewhere, as if it lay in the ledger. */
export async function draftElsewhere(
  here: Here,
  file: string,
  flags: DraftFlags,
): Promise<DraftedApplication> {
  refuseSaidTwice(flags)
  const { draftFacts } = await import('../../check/draft.js')
  const text = await draftText(here, file)
  const stem = file.replace(/^.*[/\\]/, '').replace(/\.yaml$/, '')
  const named = await applicationPathOf(`sites/${flags.site}/applications/${stem}.yaml`)
  if (named && flags.on === undefined && flags.by === undefined && flags.word === undefined)
    return { path: named, text }
  const by = flags.by ?? draftFacts(text).by
  if (flags.on === undefined || by === undefined)
    throw new UsageError(
      `The name of ${file} does not tell day and person, as 2026-03-12-okafor.yaml does: add --on${by === undefined ? ' and --by' : ''}.`,
    )
  return { path: await placeFor({ ...flags, by, on: flags.on }), text }
}

/** A draft that is said on the command line alone. */
export async function draftOfFlags(flags: DraftFlags, ledger: OpenLedger): Promise<DraftedApplication> {
  const missing = needed.filter((flag) => flags[flag] === undefined)
  if (missing.length > 0)
    throw new UsageError(
      `Name the file of a draft, or say it: ${missing.map((flag) => `--${flag}`).join(', ')} ${missing.length === 1 ? 'is' : 'are'} missing.`,
    )
  const { textOf } = await import('../../check/draft.js')
  const path = await placeFor(flags)
  if (!('refused' in ledger.source.read(path.file)))
    throw new UsageError(
      `${path.file} is there already: name that file, or add --word and a word that tells the two apart.`,
    )
  const areas = (flags.area ?? '').split(',').map((area) => area.trim())
  const inArea = areas.length === 1 && flags.amount !== undefined ? { amount: flags.amount } : {}
  return {
    path,
    text: textOf({
      by: flags.by,
      status: 'planned',
      product: flags.product,
      pest: flags.pest,
      areas: Object.fromEntries(areas.map((area) => [area, inArea])),
      method: flags.method,
      ...(flags.amount === undefined ? {} : { amount: flags.amount }),
      ...(flags.time === undefined ? {} : { time: flags.time }),
    }),
  }
}

function refuseSaidTwice(flags: DraftFlags): void {
  const both = onlyWithoutFile.filter((flag) => flags[flag] !== undefined)
  if (both.length > 0)
    throw new UsageError(
      `A file says it all: ${both.map((flag) => `--${flag}`).join(', ')} ${both.length === 1 ? 'does' : 'do'} not go with it.`,
    )
}

async function placeFor(flags: DraftFlags): Promise<DraftedApplication['path']> {
  const { dayOption } = await import('../day-option.js')
  const { placeOf } = await import('../../writing/new/place.js')
  const { on = '', site = '', by = '', word } = flags
  const day = dayOption('--on', on)
  const place = placeOf({
    kind: 'application',
    day,
    site,
    by,
    ...(word === undefined ? {} : { word }),
  })
  if ('refused' in place) throw new UsageError(place.refused)
  const path = await applicationPathOf(place.file)
  if (!path) throw new UsageError(`${place.file} cannot be the place of a record.`)
  return path
}

async function applicationPathOf(file: string): Promise<DraftedApplication['path'] | undefined> {
  const { recordPathOf } = await import('../../records/paths.js')
  const found = recordPathOf(file)
  if (found === null || 'stray' in found || found.kind !== 'application') return undefined
  const { site, day } = found
  return site === undefined || day === undefined ? undefined : { ...found, site, day }
}

async function draftText(here: Here, file: string): Promise<Uint8Array> {
  const { readFile } = await import('node:fs/promises')
  const { resolve } = await import('node:path')
  let text: Uint8Array
  try {
    text = await readFile(resolve(here.cwd(), file))
  } catch {
    throw new UsageError(`${file} cannot be read; name the file of a draft.`)
  }
  return refuseCancelled(file, text)
}

async function refuseCancelled(file: string, text: Uint8Array): Promise<Uint8Array> {
  const { draftFacts } = await import('../../check/draft.js')
  if (draftFacts(text).status === 'cancelled')
    throw new UsageError(`${file} says that it was cancelled, so there is nothing to look at beforehand.`)
  return text
}
