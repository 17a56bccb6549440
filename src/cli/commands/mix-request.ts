import type { Densities } from '../../measure/mixing.js'
import { measureAlike } from '../../measure/mixing.js'
import { compareQuantities, type Quantity } from '../../measure/quantities.js'
import { nearest } from '../../records/nearest.js'
import { spaceUnits } from '../../records/units.js'
import { methods } from '../../records/use-words.js'
import type { MixAsked, MixRequest } from '../../reports/mix.js'
import { asGiven } from '../../reports/mix-amounts.js'
import type { RegisterProduct } from '../../reports/mix-register.js'
import { registerIds, registerProduct } from '../../reports/mix-register.js'
import { dayWithoutLedger, openLedger } from '../find-ledger.js'
import type { Here } from '../runner.js'
import { UsageError } from '../usage-error.js'
import { activesOf, oneStrength, ratesTold, refuseTooHeavy } from './mix-product.js'
import { perGiven, quantityGiven, type Wanted } from './mix-quantities.js'
import type { ReportFlags } from './report.js'

export interface MixFlags extends ReportFlags {
  readonly strength?: string
  readonly target?: string
  readonly make?: string
  readonly rate?: string
  readonly per?: string
  readonly area?: string
  readonly of?: 'product' | 'active'
  readonly water?: string
  readonly waterPer?: string
  readonly density?: string
  readonly diluentDensity?: string
  readonly product?: string
  readonly active?: string
  readonly method?: string
}

const strengths = ['percent', 'strength'] as const
const extents = ['area', 'volume', 'length', 'pieces'] as const
const wanted = {
  strength: { option: '--strength', dimensions: strengths, example: '48 %' },
  target: { option: '--target', dimensions: strengths, example: '1 %' },
  make: { option: '--make', dimensions: ['volume', 'weight'], example: '55 gal' },
  rate: { option: '--rate', dimensions: ['volume', 'weight', 'pieces'], example: '1 fl oz' },
  per: { option: '--per', dimensions: extents, example: '1000 ft2' },
  area: { option: '--area', dimensions: extents, example: '2500 ft2' },
  water: { option: '--water', dimensions: ['volume'], example: '1 gal' },
  waterPer: { option: '--water-per', dimensions: extents, example: '1000 ft2' },
  density: { option: '--density', dimensions: ['strength'], example: '8.6 lb/gal' },
  diluentDensity: { option: '--diluent-density', dimensions: ['strength'], example: '8.34 lb/gal' },
} as const satisfies Record<string, Wanted>

export type Given = Partial<Record<keyof typeof wanted, Quantity>>

/** What was asked, read and put together; every mistake is told before anything is worked out. */
export async function mixRequest(flags: MixFlags, here: Here): Promise<MixRequest> {
  const given: Given = {}
  for (const key of Object.keys(wanted) as (keyof typeof wanted)[]) {
    const text = flags[key]
    if (text !== undefined)
      given[key] = (key === 'per' || key === 'waterPer' ? perGiven : quantityGiven)(wanted[key], text)
  }
  const { asOf, register } = await registerOf(flags, here)
  const remarks: string[] = []
  const actives = activesOf(flags, given, register, remarks)
  const told = register?.measures
  const density = given.density ?? told?.density
  if (given.density && told?.density && compareQuantities(given.density, told.density) !== 0)
    remarks.push(
      `The register has ${asGiven(told.density)} as the density of ${register?.name}; ${asGiven(given.density)} was given and used.`,
    )
  refuseTooHeavy(actives, density)
  const densities: Densities = {
    product: density,
    pieceWeights: told?.pieceWeights,
    diluent: given.diluentDensity,
  }
  if (Object.values(given).some(({ unit }) => unit === 'oz'))
    remarks.push('`oz` was read as weight, 16 to the pound; a fluid ounce is written `fl oz`.')
  const method = methodOf(flags)
  const asked = askedOf(flags, given, actives, density, register)
  return { asOf, asked, actives, densities, register, method, remarks }
}

/** Only rates of a label go by method, so one without a product would be passed over. */
function methodOf({ method, product }: MixFlags): string | undefined {
  if (method === undefined) return undefined
  if (product === undefined)
    throw new UsageError('--method chooses among the label rates of a --product; name one.')
  if (!(methods as readonly string[]).includes(method)) {
    const meant = nearest(method, methods)
    throw new UsageError(
      `--method ${method}: there is no such method; ${meant ? `did you mean ${meant}?` : `it may be ${methods.join(', ')}.`}`,
    )
  }
  return method
}

async function registerOf(flags: MixFlags, here: Here) {
  const { product, active } = flags
  if (product === undefined) {
    if (active !== undefined) throw new UsageError('--active chooses among those of a --product; name one.')
    if (flags.ledger !== undefined || flags.rev !== undefined)
      throw new UsageError('--ledger and --rev say where a --product is looked up; name one.')
    return { asOf: dayWithoutLedger(flags.asOf, here), register: undefined }
  }
  const ledger = openLedger([], flags, here)
  const ids = registerIds(ledger.source)
  if (!ids.includes(product)) {
    const meant = nearest(product, ids)
    throw new UsageError(
      `There is no product ${product} in the register${meant === undefined ? '; give --strength from the label instead.' : `; did you mean ${meant}?`}`,
    )
  }
  const register = registerProduct(ledger.source, product, ledger.asOf)
  if (!register)
    throw new UsageError(
      `The record of ${product} cannot be used; \`doorsweep check products/${product}\` says why.`,
    )
  return { asOf: ledger.asOf, register }
}

function askedOf(
  flags: MixFlags,
  given: Given,
  actives: ReadonlyMap<string, Quantity>,
  density: Quantity | undefined,
  register: RegisterProduct | undefined,
): MixAsked {
  const { target, rate } = given
  if (target && rate)
    throw new UsageError('Say either --target (how strong) or --rate (how much on what), not both.')
  if (target) return toStrength(flags, given, target, actives, register)
  if (rate) return atRate(flags, given, rate, actives, density, register)
  throw new UsageError(
    `Say what the label asks for: --target "1 %", or --rate "1 fl oz" --per "1000 ft2".${ratesTold(register)}`,
  )
}

function toStrength(
  flags: MixFlags,
  given: Given,
  target: Quantity,
  actives: ReadonlyMap<string, Quantity>,
  register: RegisterProduct | undefined,
): MixAsked {
  refuseWith('--target', flags, ['per', 'of', 'water', 'waterPer'])
  const strength = oneStrength('a target', actives, register)
  if (!given.make)
    throw new UsageError(
      `A target says how strong, not how much: add --make, such as --make "55 gal".${given.area ? ' How much mix an area takes is on the label; an area alone does not tell it.' : ''}`,
    )
  refuseWith('--target', flags, ['area'])
  const isCrossed = (target.dimension === 'percent') === (given.make.dimension === 'volume')
  if (given.diluentDensity && !isCrossed)
    throw new UsageError(
      '--diluent-density turns a volume of mix into weight, or back, and nothing here asks for that; leave it out.',
    )
  return { kind: 'strength', strength, target, make: given.make }
}

function refuseWith(main: string, flags: MixFlags, keys: readonly (keyof typeof wanted | 'of')[]): void {
  for (const key of keys)
    if (flags[key] !== undefined)
      throw new UsageError(
        `${key === 'of' ? '--of' : wanted[key].option} does not go with ${main}; leave one of them out.`,
      )
}

function atRate(
  flags: MixFlags,
  given: Given,
  rate: Quantity,
  actives: ReadonlyMap<string, Quantity>,
  density: Quantity | undefined,
  register: RegisterProduct | undefined,
): MixAsked {
  refuseWith('--rate', flags, ['diluentDensity'])
  const { per } = given
  if (!per)
    throw new UsageError('A rate is per something: add --per, such as --per "1000 ft2" or --per "100 gal".')
  const inMix = per.dimension === 'volume' && !(spaceUnits as readonly string[]).includes(per.unit)
  const on = inMix ? given.make : given.area
  if (!on)
    throw new UsageError(
      inMix
        ? `The rate is per volume of mix (${asGiven(per)}): add how much mix to make, such as --make "300 gal".`
        : `The rate is per extent (${asGiven(per)}): add how much is treated, such as --area "2500 ft2".`,
    )
  refuseWith(
    inMix ? 'a rate per volume of mix' : 'a rate per extent',
    flags,
    inMix ? ['area', 'water', 'waterPer'] : ['make'],
  )
  const onWord = inMix ? '--make' : '--area'
  refuseUnlike('--per', per, onWord, on)
  const carrier = carrierOf(given, on)
  const { of, ofWasSaid } = rateIsOf(flags, given, rate, actives, density)
  const [only, ...others] = actives.values()
  const strength =
    of === 'active'
      ? oneStrength('a rate of active ingredient', actives, register)
      : others.length === 0
        ? only
        : undefined
  return { kind: 'rate', rate, per, on, of, ofWasSaid, inMix, strength, carrier }
}

function refuseUnlike(option: string, one: Quantity, otherOption: string, other: Quantity): void {
  if (!measureAlike(one, other))
    throw new UsageError(
      `${option} "${asGiven(one)}" and ${otherOption} "${asGiven(other)}" do not measure the same thing; give both as the label does.`,
    )
}

function carrierOf({ water, waterPer }: Given, on: Quantity) {
  if (!water && !waterPer) return undefined
  if (!water || !waterPer)
    throw new UsageError('--water and --water-per go together: --water "1 gal" --water-per "1000 ft2".')
  refuseUnlike('--water-per', waterPer, '--area', on)
  return { water, per: waterPer }
}

/** Whether a rate is of product or of active ingredient; where both could be meant and told, it has to be said. */
function rateIsOf(
  { of }: MixFlags,
  given: Given,
  rate: Quantity,
  actives: ReadonlyMap<string, Quantity>,
  density: Quantity | undefined,
): { readonly of: 'product' | 'active'; readonly ofWasSaid: boolean } {
  const isLiquid = [...actives.values()].some(({ dimension }) => dimension === 'strength')
  if (of === 'active' && rate.dimension !== 'weight')
    throw new UsageError(
      `Active ingredient is told by weight, and ${asGiven(rate)} is none: give --rate in lb, oz or g, or say --of product.`,
    )
  if (!isLiquid || rate.dimension !== 'weight') return { of: of ?? 'product', ofWasSaid: of !== undefined }
  if (of === 'active') return { of, ofWasSaid: true }
  if (of === 'product') {
    if (density) return { of, ofWasSaid: true }
    throw new UsageError(
      `${asGiven(rate)} is a weight, and the strength of the product is per volume: this takes the weight of a volume of the undiluted product, --density. If the label means fluid ounces, write fl oz.`,
    )
  }
  if (given.strength && !density && rate.unit !== 'oz') return { of: 'active', ofWasSaid: false }
  throw new UsageError(
    `${asGiven(rate)} can be a weight of product or of active ingredient, which is not the same: add --of product or --of active, as the label says.${rate.unit === 'oz' ? ' If it means fluid ounces, write fl oz.' : ''}`,
  )
}
