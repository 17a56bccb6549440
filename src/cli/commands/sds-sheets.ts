import { createHash } from 'node:crypto'
import { realpathSync } from 'node:fs'
import { basename, dirname, relative, resolve, sep } from 'node:path'
import { largestPdf, pdfLibrary, readPdf } from '../../files/pdf-text.js'
import type { Bytes, Refusal } from '../../files/source.js'
import { workTree } from '../../files/work-tree.js'
import type { DistrictView } from '../../ledger/district-view.js'
import { districtView } from '../../ledger/district-view.js'
import type { Loaded } from '../../ledger/loaded.js'
import { inventoryOf } from '../../ledger/read-records.js'
import { dayIn, inForce } from '../../ledger/spans.js'
import { nearest } from '../../records/nearest.js'
import { besideRecord } from '../../records/paths.js'
import type { AskedSheet } from '../../reports/sds.js'
import type { Day } from '../../types.js'
import type { OpenLedger } from '../find-ledger.js'
import { dayWithoutLedger, openLedger } from '../find-ledger.js'
import type { Here } from '../runner.js'
import { UsageError } from '../usage-error.js'
import { wantedVersion } from '../version.js'
import type { SdsFlags } from './sds.js'

export interface SheetsAsked {
  readonly sheets: readonly AskedSheet[]
  readonly subject: string
  readonly asOf: Day
}

/** A product of the register, or a file: what is a file is meant as one. */
export async function sheetsAsked(here: Here, what: string, flags: SdsFlags): Promise<SheetsAsked> {
  const isName = /^[a-z][a-z0-9-]*$/.test(what)
  if (isName) {
    if (flags.product !== undefined)
      throw new UsageError('--product goes with the PDF of a sheet, not with a product.')
    return ofProduct(what, openLedger([], flags, here), flags)
  }
  if (flags.inForce) throw new UsageError('--in-force goes with a product, not with the PDF of a sheet.')
  return ofFile(here, what, flags)
}

async function ofProduct(id: string, ledger: OpenLedger, flags: SdsFlags): Promise<SheetsAsked> {
  const product = productOf(districtOf(ledger), id)
  const all = (product.data.sds ?? []).filter(({ from }) => dayIn(from) <= ledger.asOf)
  const current = inForce(all, ledger.asOf)
  const wanted = flags.inForce ? all.filter((sheet) => sheet === current) : all
  if (wanted.length === 0)
    throw new UsageError(
      `The register has no safety data sheet of ${product.data.name}${flags.inForce ? ' in force' : ''} on that day. To read one that is not yet in it: doorsweep sds FILE --product ${id}`,
    )
  const sheets: AskedSheet[] = []
  for (const sheet of wanted) {
    const path = besideRecord(product.file, sheet.file)
    const position = product.data.sds?.indexOf(sheet) ?? 0
    const register = { product, entry: { sheet, position } }
    sheets.push({
      ...(await readSheet(path, ledger.source.read(path, largestPdf))),
      file: sheet.file,
      register,
    })
  }
  return { sheets, subject: product.data.name, asOf: ledger.asOf }
}

async function ofFile(here: Here, written: string, flags: SdsFlags): Promise<SheetsAsked> {
  const ledger = ledgerAround(here, flags)
  const absolute = resolve(here.cwd(), written)
  const inside = ledger && insideOf(ledger.root, absolute)
  const read = inside === undefined ? readOutside(absolute) : ledger?.source.read(inside, largestPdf)
  if (!read || ('refused' in read && read.refused === 'missing'))
    throw new UsageError(`${written} does not exist.`)
  const district = ledger && districtOf(ledger)
  const sheet = await readSheet(inside ?? written, read)
  const product = district && productFor(district, inside, flags.product)
  const entry = product?.data.sds?.find(
    ({ file, sha256 }) => besideRecord(product.file, file) === inside || sha256 === sheet.sha256,
  )
  const position = entry === undefined ? -1 : (product?.data.sds?.indexOf(entry) ?? -1)
  return {
    sheets: [
      {
        ...sheet,
        file: entry?.file ?? fileFor(inside, product, absolute),
        ...(product
          ? { register: { product, ...(entry ? { entry: { sheet: entry, position } } : {}) } }
          : {}),
      },
    ],
    subject: product?.data.name ?? basename(absolute),
    asOf: ledger?.asOf ?? dayWithoutLedger(flags.asOf, here),
  }
}

/** The ledger asked for, or the one around the current folder if there is one: a sheet can be read without. */
function ledgerAround(here: Here, flags: SdsFlags): OpenLedger | undefined {
  if (flags.ledger !== undefined || flags.product !== undefined || flags.rev !== undefined)
    return openLedger([], flags, here)
  try {
    return openLedger([], flags, here)
  } catch (error) {
    if (error instanceof UsageError) return undefined
    throw error
  }
}

/** From the root of the ledger; undefined outside of it. */
function insideOf(root: string, path: string): string | undefined {
  const inside = relative(root, path).split(sep).join('/')
  return inside === '' || inside.startsWith('../') ? undefined : inside
}

/** A file that someone names outside of the ledger may well be a link. */
function readOutside(path: string): Bytes | Refusal {
  try {
    const real = realpathSync(path)
    return workTree(dirname(real)).read(basename(real), largestPdf)
  } catch {
    return { refused: 'missing', detail: 'does not exist' }
  }
}

async function readSheet(
  path: string,
  bytes: Bytes | Refusal,
): Promise<Pick<AskedSheet, 'path' | 'sha256' | 'read'>> {
  if ('refused' in bytes) return { path, sha256: '', read: bytes }
  const sha256 = createHash('sha256').update(bytes.bytes).digest('hex')
  const read = await readPdf(bytes.bytes)
  if ('refused' in read && read.refused === 'not-installed') throw new UsageError(howToInstall())
  return { path, sha256, read }
}

function howToInstall(): string {
  return `Reading a PDF takes the optional package ${pdfLibrary}, which is not installed. In the folder of doorsweep run \`npm install --no-save ${pdfLibrary}@${wantedVersion(pdfLibrary)}\`. No other command needs it.`
}

function districtOf({ source, asOf }: OpenLedger): DistrictView {
  const district = districtView(source, inventoryOf(source), asOf, [])
  if (!district)
    throw new UsageError('district.yaml is missing or cannot be used; `doorsweep check` says why.')
  return district
}

function productOf(district: DistrictView, id: string): Loaded<'product'> {
  const product = district.products.get(id)
  if (product) return product
  if (district.broken.has(`product ${id}`))
    throw new UsageError(`The record of product ${id} cannot be used; \`doorsweep check\` says why.`)
  const meant = nearest(id, [...district.products.keys()])
  throw new UsageError(
    `There is no product ${id}; ${meant === undefined ? 'for a file write its path, such as ./sheet.pdf.' : `did you mean ${meant}?`}`,
  )
}

/** The product that is named, or in whose folder the file lies. */
function productFor(
  district: DistrictView,
  inside: string | undefined,
  named: string | undefined,
): Loaded<'product'> | undefined {
  if (named !== undefined) return productOf(district, named)
  const folder = /^products\/([^/]+)\//.exec(inside ?? '')?.[1]
  return folder === undefined ? undefined : district.products.get(folder)
}

function fileFor(inside: string | undefined, product: Loaded<'product'> | undefined, path: string): string {
  const folder = product === undefined ? undefined : besideRecord(product.file, '')
  return folder !== undefined && inside?.startsWith(folder) ? inside.slice(folder.length) : basename(path)
}
