import type { DistrictView } from '../ledger/district-view.js'
import type { Loaded } from '../ledger/loaded.js'
import { dayIn, inForce } from '../ledger/spans.js'
import { isoOf } from '../measure/calendar.js'
import type { RecordOf } from '../records/kinds.js'
import { besideRecord } from '../records/paths.js'
import type { ProductKind } from '../records/use-words.js'
import type { Day } from '../types.js'

/** A label or a safety data sheet of a product, as the register and the disk have it on a day. */
export interface Paper {
  readonly kind: 'label' | 'safety data sheet'
  /** The one in force, or the last one that was; undefined where the register has none by that day. */
  readonly file: string | undefined
  /** From the root of the ledger. */
  readonly path: string | undefined
  readonly from: string | undefined
  /** Revision mark of a label, revision date of a sheet. */
  readonly revision: string | undefined
  readonly current: 'yes' | 'no'
  readonly present: 'yes' | 'no' | 'could not be read'
  /** Whether the file has the SHA-256 that was recorded. */
  readonly intact: 'yes' | 'no' | 'not stated' | 'not known'
  /** What is wrong with it, in a few words; undefined when nothing is. */
  readonly wrong: string | undefined
}

/** What a kind of product is asked for; of the others a paper is shown when there is one. */
const labelled: ReadonlySet<ProductKind> = new Set([
  'pesticide',
  'minimum-risk',
  'antimicrobial',
  'living-agent',
])
const sheeted: ReadonlySet<ProductKind> = new Set(['pesticide', 'minimum-risk', 'antimicrobial'])

export function labelOf(district: DistrictView, product: Loaded<'product'>, day: Day): Paper {
  const { labels, kind } = product.data
  const span = inForce(labels, day) ?? lastBefore(labels, day)
  return paperOf(district, product, day, {
    kind: 'label',
    span,
    revision: span?.revision,
    isAsked: labelled.has(kind) || labels !== undefined,
  })
}

export function sheetOf(district: DistrictView, product: Loaded<'product'>, day: Day): Paper {
  const { sds, kind } = product.data
  const span = inForce(sds, day) ?? lastBefore(sds, day)
  return paperOf(district, product, day, {
    kind: 'safety data sheet',
    span,
    revision: span?.revised,
    isAsked: sheeted.has(kind) || sds !== undefined,
  })
}

type Span =
  | NonNullable<RecordOf<'product'>['labels']>[number]
  | NonNullable<RecordOf<'product'>['sds']>[number]

/** The one that was in force last, so that it can be named although it no longer is. */
function lastBefore<S extends Span>(spans: readonly S[] | undefined, day: Day): S | undefined {
  return (spans ?? [])
    .filter(({ from }) => dayIn(from) <= day)
    .reduce<S | undefined>((last, span) => (last && last.from > span.from ? last : span), undefined)
}

function paperOf(
  district: DistrictView,
  product: Loaded<'product'>,
  day: Day,
  {
    kind,
    span,
    revision,
    isAsked,
  }: Pick<Paper, 'kind' | 'revision'> & { span: Span | undefined; isAsked: boolean },
): Paper {
  if (!span)
    return {
      kind,
      file: undefined,
      path: undefined,
      from: undefined,
      revision: undefined,
      current: 'no',
      present: 'no',
      intact: 'not known',
      wrong: isAsked ? `no ${kind} is in the register for ${isoOf(day)}` : undefined,
    }
  const path = besideRecord(product.file, span.file)
  const isCurrent = span.until === undefined || day <= dayIn(span.until)
  const onDisk = stateOnDisk(district, path, span.sha256)
  const name = `its ${kind === 'label' ? 'label' : 'sheet'} ${span.file}`
  const wrong =
    onDisk.present === 'no'
      ? `${name} is not in the ledger`
      : onDisk.present === 'could not be read'
        ? `${name} could not be read`
        : onDisk.intact === 'no'
          ? `${name} is not the file that was recorded`
          : isCurrent
            ? undefined
            : `${name} was in force until ${span.until}, and none is since`
  return {
    kind,
    file: span.file,
    path,
    from: span.from,
    revision,
    current: isCurrent ? 'yes' : 'no',
    ...onDisk,
    wrong,
  }
}

function stateOnDisk(
  district: DistrictView,
  path: string,
  stated: string | undefined,
): Pick<Paper, 'present' | 'intact'> {
  if (!district.hasFile(path)) return { present: 'no', intact: 'not known' }
  const hash = district.source.sha256(path)
  if ('refused' in hash) return { present: 'could not be read', intact: 'not known' }
  if (stated === undefined) return { present: 'yes', intact: 'not stated' }
  return { present: 'yes', intact: hash.sha256 === stated ? 'yes' : 'no' }
}
