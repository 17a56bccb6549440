import { isoOf } from '../measure/calendar.js'
import type { Densities, Mix, MixingRate, NoMix, Step } from '../measure/mixing.js'
import { activeIn, dimensionOf, mixAtRate, mixToStrength, quantityOf } from '../measure/mixing.js'
import type { Quantity } from '../measure/quantities.js'
import type { Day, Report, Row, Table } from '../types.js'
import { asGiven, figure, handier, metric, stepText } from './mix-amounts.js'
import { heldAgainst, isAboveFor, notHeldLines, ratesFor, rateTable, whichMethod } from './mix-label-rates.js'
import type { RegisterProduct } from './mix-register.js'

export type MixAsked =
  | {
      readonly kind: 'strength'
      readonly strength: Quantity
      readonly target: Quantity
      readonly make: Quantity
    }
  | (MixingRate & {
      readonly kind: 'rate'
      /** Of the product, where one is known. */
      readonly strength?: Quantity | undefined
      readonly of: 'product' | 'active'
      /** False when `of` was concluded from the units. */
      readonly ofWasSaid: boolean
      readonly inMix: boolean
      readonly carrier?: { readonly water: Quantity; readonly per: Quantity } | undefined
    })

export interface MixRequest {
  readonly asOf: Day
  readonly asked: MixAsked
  /** All active ingredients to be told, by name. */
  readonly actives: ReadonlyMap<string, Quantity>
  readonly densities: Densities
  readonly register?: RegisterProduct | undefined
  /** How it is to be applied, for rates of the label that are for named methods. */
  readonly method?: string | undefined
  /** What else the reader must know of the figures given. */
  readonly remarks: readonly string[]
}

export interface MixReport {
  readonly report: Report
  /** A rate of the label in force, as the register tells it, is exceeded. */
  readonly isAboveLabel: boolean
}

const cautions = [
  'This is arithmetic on the figures given. It authorises no application.',
  'What goes in is rounded to four digits for people; --show-work has the numbers in full.',
  'The printed label on the container decides rate, place, pest and method; where it differs from these figures, the label holds.',
  'Where law or local code asks for a licensed applicator, only one mixes and applies; local code governs.',
  'Wear what the label says. Measure and mix where no pupils are, with tools kept for this alone; add product to water in the order the label gives.',
]

/** What a label's directions come to: undiluted product, water, active ingredient, and how it was worked out. */
export function mixReport(request: MixRequest): MixReport | NoMix {
  const { asked, densities, register, actives } = request
  const mix =
    asked.kind === 'strength'
      ? mixToStrength(asked, densities)
      : mixAtRate({ ...asked, strength: asked.of === 'active' ? asked.strength : undefined }, densities)
  if (typeof mix === 'string') return mix
  const told = [...actives].map(([name, strength]) => ({ name, strength, step: activeIn(mix, strength) }))
  const held = ratesFor(register, request.method).map((rate) => ({
    rate,
    compared: heldAgainst(mix, asked, rate),
  }))
  const isAbove = isAboveFor(held, request.method)
  const notHeld = notHeldLines(register, held)
  return {
    isAboveLabel: isAbove,
    report: {
      report: 'mix',
      title: register ? `Mixing arithmetic, ${register.name}` : 'Mixing arithmetic',
      headline: headlineOf(mix, request, isAbove),
      asOf: isoOf(request.asOf),
      facts: factsOf(request),
      tables: [
        amountTable(mix, request, told),
        stepTable(mix, request.asked, told),
        ...(register ? [rateTable(register, held)] : []),
      ],
      cautions: [...cautionsOf(mix, request, told), ...whichMethod(held, isAbove), ...cautions],
      notExamined: notHeld,
      incomplete: register !== undefined && held.every(({ compared }) => compared === null),
    },
  }
}

interface ToldActive {
  readonly name: string
  readonly strength: Quantity
  /** Undefined where only the density of the product would tell it. */
  readonly step: Step | undefined
}

function headlineOf(mix: Mix, request: MixRequest, isAbove: boolean): string {
  const { asked, register } = request
  const forWhat =
    asked.kind === 'strength'
      ? `${asGiven(asked.make)} at ${asGiven(asked.target)}`
      : `${inWords(asked.rate)}${asked.of === 'active' ? ' of active ingredient' : ''} per ${perInWords(asked.per)}, on ${inWords(asked.on)}`
  const isIn = asked.kind === 'rate' && (asked.inMix || asked.on.dimension === 'pieces')
  const wanted = isIn ? forWhat.replace(', on ', ', in ') : forWhat
  const diluent = mix.diluent && ` and ${figure(quantityOf(mix.diluent))} of ${diluentWord(asked)}`
  const upTo = fillsUpTo(mix, asked)
  const rest = diluent ?? (upTo ? `, made up to ${asGiven(upTo)}` : '')
  const first = `By the figures given, ${wanted} takes ${inWords(quantityOf(mix.product), figure)} of undiluted product${rest}.`
  return isAbove && register
    ? `${first} THAT IS ABOVE A RATE OF THE LABEL OF ${register.name.toUpperCase()} IN FORCE, AS THE REGISTER TELLS IT.`
    : first
}

/** A sentence has `6 stations` and `per station` where a cell or a record has `6 station` and `1 station`. */
function inWords(quantity: Quantity, written = asGiven): string {
  const isMany = quantity.dimension === 'pieces' && quantity.unit !== 'each' && quantity.value !== 1
  return `${written(quantity)}${isMany ? 's' : ''}`
}

function perInWords(per: Quantity): string {
  return per.dimension === 'pieces' && per.value === 1 ? per.unit : inWords(per)
}

function diluentWord(asked: MixAsked): string {
  return asked.kind === 'strength' && asked.make.dimension === 'weight' ? 'diluent' : 'water'
}

/** Where the diluent cannot be told by itself: how much the whole has to come to. */
function fillsUpTo(mix: Mix, asked: MixAsked): Quantity | undefined {
  if (mix.diluent) return undefined
  if (asked.kind === 'strength') return asked.make
  return asked.inMix ? asked.on : undefined
}

function factsOf({ densities, register, asked }: MixRequest): Report['facts'] {
  const fact = (label: string, value: string | undefined) => (value === undefined ? [] : [{ label, value }])
  return [
    ...fact('Label in force', register && (register.label ?? 'none in the register')),
    ...fact('Strength of the product', asked.strength && asGiven(asked.strength)),
    ...fact('Weight of the undiluted product', densities.product && asGiven(densities.product)),
    ...fact('Weight of the diluent', densities.diluent && asGiven(densities.diluent)),
    ...fact(
      'Rate is of',
      asked.kind === 'rate' ? (asked.of === 'active' ? 'active ingredient' : 'product') : undefined,
    ),
  ]
}

function amountTable(mix: Mix, { asked }: MixRequest, told: readonly ToldActive[]): Table {
  const rows: Row[] = [amountRow('undiluted product', quantityOf(mix.product))]
  if (mix.productOtherwise)
    rows.push(amountRow('the same product, measured otherwise', quantityOf(mix.productOtherwise)))
  const upTo = fillsUpTo(mix, asked)
  if (mix.diluent) rows.push(amountRow(diluentWord(asked), quantityOf(mix.diluent)))
  else if (upTo) rows.push(amountRow(`${diluentWord(asked)} to make it up to`, upTo))
  for (const { name, step } of told)
    rows.push(
      step
        ? amountRow(activeName(name), quantityOf(step.result))
        : { cells: { what: activeName(name), amount: 'not told' }, records: [] },
    )
  return {
    id: 'amounts',
    title: 'What goes in',
    columns: [
      { id: 'what', title: 'what' },
      { id: 'amount', title: "in the label's unit", for: 'people' },
      { id: 'handier', title: 'to measure out' },
      { id: 'metric', title: 'metric' },
      { id: 'value', title: 'value', for: 'work' },
      { id: 'unit', title: 'unit', for: 'work' },
    ],
    rows,
    empty: 'Nothing.',
  }
}

function activeName(name: string): string {
  return name === '' ? 'active ingredient' : `active ingredient ${name}`
}

function amountRow(what: string, quantity: Quantity): Row {
  return {
    cells: {
      what,
      amount: figure(quantity),
      handier: handier(quantity),
      metric: metric(quantity),
      value: quantity.value,
      unit: quantity.unit,
    },
    records: [],
  }
}

function stepTable(mix: Mix, asked: MixAsked, told: readonly ToldActive[]): Table {
  const steps: { readonly what: string; readonly step: Step }[] = mix.steps.map((step) => ({
    what: step.what.replace('diluent', diluentWord(asked)),
    step,
  }))
  // A rate of active ingredient begins with it.
  const isWorked = mix.steps.some(({ what }) => what === 'active ingredient')
  for (const { name, step } of isWorked ? [] : told) if (step) steps.push({ what: activeName(name), step })
  return {
    id: 'steps',
    title: 'How it was worked out',
    columns: [
      { id: 'step', title: 'step', decimals: 0 },
      { id: 'what', title: 'what' },
      { id: 'working', title: 'working' },
      { id: 'result', title: 'result' },
    ],
    rows: steps.map(({ what, step }, index) => ({
      cells: {
        step: index + 1,
        what,
        working: stepText(step),
        result: figure(quantityOf(step.result)),
      },
      records: [],
    })),
    empty: 'Nothing.',
  }
}

function cautionsOf(mix: Mix, request: MixRequest, told: readonly ToldActive[]): string[] {
  const { asked, densities, register } = request
  const lines = [...request.remarks]
  if (
    asked.kind === 'strength' &&
    asked.target.dimension === 'percent' &&
    asked.strength.dimension === 'percent' &&
    asked.make.dimension === 'volume' &&
    !densities.diluent
  )
    lines.push(
      'Both percents were read as parts of volume. For parts of weight, as of a powder, give the weight of the diluent: --diluent-density "8.34 lb/gal" for water.',
    )
  if (asked.kind === 'rate' && asked.inMix)
    lines.push('The rate was read as per volume of finished mix, product included.')
  if (asked.kind === 'rate' && asked.of === 'active' && !asked.ofWasSaid)
    lines.push(
      'The rate was read as active ingredient, since it is a weight and the strength a weight per volume; --of product or --of active says which.',
    )
  if (told.some(({ step }) => !step))
    lines.push(
      dimensionOf(mix.product.unit) === 'pieces'
        ? 'The weight of active ingredient is not told: the product is counted, and what one piece weighs is on the label; `weight-per` in product.yaml takes it.'
        : 'The weight of active ingredient is not told: it takes the density of the undiluted product (--density).',
    )
  if (told.length === 0)
    lines.push(
      'The weight of active ingredient is not told: it takes the strength of the product (--strength).',
    )
  if (asked.kind === 'rate' && !asked.inMix && !mix.diluent)
    lines.push('No water was asked for; the label says how much, if any.')
  if (register?.isRestricted)
    lines.push(
      `The register has ${register.name} as restricted use: for certified applicators, as its label says.`,
    )
  if (register?.cancelledOn !== undefined)
    lines.push(`The register has ${register.name} as cancelled on ${register.cancelledOn}.`)
  if (register?.rates.some(({ per }) => per === 'application'))
    lines.push('Rates per application were held against all that is mixed here, as if used at one time.')
  return lines
}
