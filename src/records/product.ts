import { z } from 'zod'
import { activeIngredient } from './active-ingredient.js'
import { about, date, keyed, name, oneOf, quantity, spanFields, text, yesNo } from './fields.js'
import { label, safetyDataSheet } from './label.js'
import { strengthUnits, weighedPieceUnits, weightUnits } from './units.js'
import { formulations, productKinds, signalWords } from './use-words.js'

const category = oneOf(['I', 'II', 'III', 'IV'], 'Toxicity category (40 CFR 156.62)')

const weightOfOne = quantity(weightUnits, 'Weight of one', '20 g').optional()
const weightsOfPieces = Object.fromEntries(weighedPieceUnits.map((unit) => [unit, weightOfOne])) as Record<
  (typeof weighedPieceUnits)[number],
  typeof weightOfOne
>

/** `products/<id>/product.yaml`; its labels and safety data sheets lie beside it. */
export const product = z
  .strictObject({
    name: text('Brand name as on the label', 'Invented Bait A'),
    kind: oneOf(
      productKinds,
      'What it is in law: a registered pesticide, a minimum-risk product (40 CFR 152.25(f)), a registered disinfectant or sanitizer, a living biological agent, a device (40 CFR 152.500), or no pesticide at all',
    ),
    registration: about(
      z.string().regex(/^[0-9A-Za-z][0-9A-Za-z-]{1,30}$/),
      'EPA registration number: company-product, and the distributor where there is one (40 CFR 156.10(e), 152.132)',
      '99999-1',
    ).optional(),
    'registered-as': oneOf(
      ['full', 'conditional', 'experimental'],
      'Kind of federal registration, where it is not a full one',
    ).optional(),
    'special-local-need': about(
      z.string().regex(/^[A-Z]{2}-?[0-9]{6}$/),
      'Number of the special local need registration under which it is used: state, year, sequence; good in that state only',
      'OR-240001',
    ).optional(),
    establishment: text('EPA establishment number on the container', '99999-OR-1').optional(),
    cancelled: z
      .strictObject({
        on: date('Day the registration was cancelled or suspended'),
        'use-until': date('Last day on which stocks may be used up, where the order gives one').optional(),
        source: text('The order', 'cancellation order of 2025-11-03 (invented)').optional(),
      })
      .meta({ description: 'A registration that was cancelled, suspended or phased out' })
      .optional(),
    states: keyed(
      about(z.string().regex(/^[A-Z]{2}$/), 'Two-letter code of the state', 'OR'),
      z
        .array(
          z.strictObject({ ...spanFields, number: text('Number in the register of the state').optional() }),
        )
        .min(1),
      'States in which it is registered, in dated spans; states register apart from the federal number',
    ).optional(),
    maker: text('Who makes it', 'Invented Products').optional(),
    'active-ingredients': keyed(
      name('Active ingredient', 'boric-acid'),
      activeIngredient,
      'Active ingredients and how strong they are',
    ).optional(),
    formulation: oneOf(
      formulations,
      'What it is: gel, dust, bait …; how it is used is the method of an application',
    ).optional(),
    density: quantity(
      strengthUnits.filter((unit) => unit !== '%'),
      'Weight of a volume of the undiluted product, where the label or the sheet gives it',
      '8.6 lb/gal',
    ).optional(),
    'weight-per': z
      .strictObject(weightsOfPieces)
      .meta({
        description:
          'Weight of product in one piece, where the label gives it, so that what is recorded in pieces can be told by weight',
      })
      .optional(),
    'signal-word': oneOf(signalWords, 'Signal word as printed on the label (40 CFR 156.64)').optional(),
    toxicity: z
      .strictObject({
        oral: category.optional(),
        dermal: category.optional(),
        inhalation: category.optional(),
        eye: category.optional(),
        skin: category.optional(),
      })
      .meta({
        description:
          'Acute toxicity categories, where the registrant states them; never worked out from the safety data sheet',
      })
      .optional(),
    'restricted-use': yesNo('Whether the label says it is for restricted use').optional(),
    repellent: yesNo(
      'Whether it drives insects away before it kills them; by its active ingredients if not said',
    ).optional(),
    labels: z
      .array(label)
      .meta({
        description:
          'Labels in use, each from the day the container with it came into use; the label on the container rules',
      })
      .optional(),
    sds: z
      .array(safetyDataSheet)
      .meta({ description: 'Safety data sheets, each from the day it was at hand' })
      .optional(),
    notes: text('Anything else worth keeping').optional(),
  })
  .meta({
    description: 'A product: what the label says, in data, with its dated labels and safety data sheets',
  })
