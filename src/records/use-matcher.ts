import { z } from 'zod'
import { areaKinds } from './area-kinds.js'
import { name, oneOf, yesNo } from './fields.js'
import { pestGroups } from './pest-groups.js'
import {
  activeClasses,
  formulations,
  methods,
  productKinds,
  pupilPlaces,
  signalWords,
  siteKinds,
} from './use-words.js'

const some = <const T extends readonly [string, ...string[]]>(values: T, description: string) =>
  z.array(oneOf(values, description)).min(1).meta({ description }).optional()

/** Facets of a use. Each one written must fit; a list fits when one of its words does. */
export const useMatcher = z
  .strictObject({
    product: some(productKinds, 'What the product is in law'),
    formulation: some(formulations, 'What it is'),
    method: some(methods, 'How it is applied'),
    active: z
      .array(name('Active ingredient', 'boric-acid'))
      .min(1)
      .meta({ description: 'Every active ingredient is one of these' })
      .optional(),
    class: some(activeClasses, 'Every active ingredient is of one of these groups'),
    'signal-word': some(signalWords, 'Signal word of the label'),
    'registered-as': some(['full', 'conditional', 'experimental'], 'Kind of registration'),
    cancelled: yesNo('Whether its registration had been cancelled or suspended by then').optional(),
    'restricted-use': yesNo('Whether it is for restricted use').optional(),
    'within-reach': yesNo('Whether children can reach what was put out').optional(),
    pest: some(pestGroups, 'Group of the target pest'),
    place: oneOf(['indoors', 'outdoors'], 'Where').optional(),
    area: some(areaKinds, 'Kind of every treated area'),
    site: some(siteKinds, 'What the site is'),
    pupils: some(pupilPlaces, 'Where pupils were'),
    'for-hire': yesNo(
      'Whether whoever applied it works for a firm for hire, and not for the district itself',
    ).optional(),
    purpose: some(['pest-control', 'instruction', 'public-health-order'], 'What it was for'),
    emergency: yesNo('Whether its record states an emergency').optional(),
  })
  .meta({ description: 'A description of uses; each facet written must fit' })
export type UseMatcher = z.infer<typeof useMatcher>
