import { z } from 'zod'
import { about, date, file, keyed, name, oneOf, quantity, sha256, spanFields, text, yesNo } from './fields.js'
import { strengthUnits } from './units.js'

export const formulations = [
  'gel',
  'bait-block',
  'granular-bait',
  'bait-station',
  'dust',
  'aerosol',
  'emulsifiable-concentrate',
  'wettable-powder',
  'suspension-concentrate',
  'soluble-concentrate',
  'ready-to-use-liquid',
  'granule',
  'foam',
  'glue',
  'solid',
  'other',
] as const

export const productKinds = [
  'pesticide',
  'minimum-risk',
  'living-agent',
  'lure',
  'caulk',
  'other-material',
] as const

/** `products/<id>/product.yaml`; its labels and safety data sheets lie beside it. */
export const product = z
  .strictObject({
    name: text('Brand name as on the label', 'Invented Bait A'),
    kind: oneOf(
      productKinds,
      'What it is in law: a registered pesticide, a minimum-risk product (40 CFR 152.25(f)), a living biological agent, or no pesticide at all',
    ),
    registration: about(
      z.string().regex(/^[0-9]{1,7}-[0-9]{1,5}(?:-[0-9]{1,7})?$/),
      'EPA registration number: company-product, and the distributor where there is one (40 CFR 156.10(e), 152.132)',
      '99999-1',
    ).optional(),
    maker: text('Who makes it', 'Invented Products').optional(),
    'active-ingredients': keyed(
      name('Active ingredient', 'boric-acid'),
      z.strictObject({ strength: quantity(strengthUnits, 'Strength as the label states it', '5 %') }),
      'Active ingredients and how strong they are',
    ).optional(),
    formulation: oneOf(
      formulations,
      'What it is: gel, dust, bait …; how it is used is the method of an application',
    ).optional(),
    'signal-word': oneOf(
      ['danger', 'warning', 'caution', 'none'],
      'Signal word as printed on the label (40 CFR 156.64)',
    ).optional(),
    'restricted-use': yesNo('Whether the label says it is for restricted use').optional(),
    labels: z
      .array(
        z.strictObject({
          ...spanFields,
          file: file('The label, beside product.yaml', 'label-2024-03.pdf'),
          sha256: sha256().optional(),
          revision: text('Revision mark printed on the label', 'rev. 03/24').optional(),
        }),
      )
      .meta({
        description:
          'Labels in use, each from the day the container with it came into use; the label on the container rules',
      })
      .optional(),
    sds: z
      .array(
        z.strictObject({
          ...spanFields,
          file: file('The safety data sheet, beside product.yaml', 'sds-2024-03.pdf'),
          sha256: sha256().optional(),
          revised: date('Revision date printed on the sheet').optional(),
        }),
      )
      .meta({ description: 'Safety data sheets, each from the day it was at hand' })
      .optional(),
    notes: text('Anything else worth keeping').optional(),
  })
  .meta({
    description: 'A product: what the label says, in data, with its dated labels and safety data sheets',
  })
