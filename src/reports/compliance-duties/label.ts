import type { LabelInForce, LabelSays } from '../../ledger/labels.js'
import { labelInForce, methodOnLabel, placeOnLabel } from '../../ledger/labels.js'
import type { SiteView } from '../../ledger/site-view.js'
import { inForce } from '../../ledger/spans.js'
import type { Treatment } from '../../ledger/treatments.js'
import { pestTable } from '../../records/tables.js'
import { labelIsLaw } from '../../rules/label-is-law.js'
import { leftOpenByFederalLaw, restsOn } from '../../rules/label-use/labelled-treatments.js'
import { pestsNotNamed } from '../../rules/label-use/pest-not-on-label.js'
import type { Citation } from '../../types.js'
import type { Held } from './held.js'
import { notChecked, notShown, shown } from './held.js'
import { limitsOfLabel } from './label-limits.js'
import { labelFact } from './reentry.js'

/** What the label of a product asks of one use, held against the record of it. */
export interface HeldToLabel extends Held {
  /** `place`, `rate`, … */
  readonly name: string
  readonly duty: string
  readonly citation: Citation
}

/** Every aspect of the label in force; what the register leaves out is told, and never taken for met. */
export function heldToLabel(view: SiteView, treatment: Treatment): HeldToLabel[] {
  const citation = restsOn(treatment).sources[0] ?? labelIsLaw
  const label = labelInForce(treatment)
  if (!label) return [{ name: 'label', duty: 'used as its label says', citation, ...withoutLabel(treatment) }]
  const { says } = label
  return [
    { name: 'place', duty: 'used where the label says', citation, ...ofPlace(treatment, says) },
    {
      name: 'pest',
      duty: 'used against what the label names',
      citation: leftOpenByFederalLaw,
      ...ofPest(treatment, label),
    },
    {
      name: 'method',
      duty: 'applied as the label says',
      citation: leftOpenByFederalLaw,
      ...ofMethod(treatment, says),
    },
    ...limitsOfLabel(view, treatment, label).map((limit) => ({ citation, ...limit })),
    ...leftOut(treatment, says, citation),
  ]
}

function withoutLabel(treatment: Treatment): Held {
  const { product, productId, day } = treatment
  const label = inForce(product?.data.labels, day)
  return label
    ? notChecked(
        'what the label of that day says is not entered in the register',
        `\`says\` of the label of ${productId}`,
      )
    : notChecked('no label of that day is in the register', `\`labels\` of ${productId}`)
}

function ofPlace(treatment: Treatment, says: LabelSays): Held {
  const found = treatment.areas.map(({ id, area }) => ({
    id,
    is: area ? placeOnLabel(says, area.facts.kind) : ('no area' as const),
    kind: area?.facts.kind ?? '',
  }))
  const wrong = found.filter(({ is }) => is === 'not named' || is === 'forbidden')
  if (wrong.length > 0)
    return notShown(
      wrong
        .map(({ id, kind, is }) => `\`${id}\` (${kind}) is ${is === 'forbidden' ? 'excluded' : 'not named'}`)
        .join('; '),
    )
  const noArea = found.find(({ is }) => is === 'no area')
  if (noArea) return notChecked(`the site has no area \`${noArea.id}\``, `areas.${noArea.id} of site.yaml`)
  const open = found.find(({ is }) => is === undefined)
  if (open && says.places)
    return notChecked(
      `whether \`${open.id}\` (${open.kind}) lies indoors is not recorded`,
      'kind of the area',
    )
  if (open) return notChecked('the register does not tell the places', labelFact(treatment, 'places'))
  return shown(`the label names ${(says.places ?? []).join(', ')}`)
}

function ofPest(treatment: Treatment, label: LabelInForce): Held {
  const { says } = label
  if (!says.pests && !says['pest-groups'])
    return notChecked('the register does not tell the pests', labelFact(treatment, 'pests'))
  const missing = pestsNotNamed({ treatment, label }).flatMap(({ pests }) => pests)
  const names = (pests: readonly string[]) =>
    pests.map((pest) => pestTable().get(pest)?.name ?? pest).join(', ')
  if (missing.length > 0)
    return notShown(`the label, as the register tells it, does not name ${names(missing)}`)
  if (treatment.pests.length === 0) return notChecked('against what is not recorded', 'pest')
  const unclear = treatment.pests.filter((pest) => {
    const group = pestTable().get(pest)?.group
    return group === undefined || group === 'unidentified'
  })
  if (unclear.length > 0) return notChecked(`which pest \`${unclear.join(', ')}\` is was not told`, 'pest')
  return shown(`against ${names(treatment.pests)}`)
}

function ofMethod(treatment: Treatment, says: LabelSays): Held {
  const { method } = treatment
  switch (methodOnLabel(says, method)) {
    case 'not named':
      return notShown(`the label names ${(says.methods ?? []).join(', ')}; the record shows ${method}`)
    case undefined:
      return says.methods
        ? notChecked(`\`${method}\` is no method that can be held against it`, 'method')
        : notChecked('the register does not tell the methods', labelFact(treatment, 'methods'))
    default:
      return shown(`applied as ${method}`)
  }
}

/** Limits of which the register tells nothing; a label may have none, and only the printed one can tell. */
const limits = [
  'rates',
  'interval',
  'applications-a-year',
  'amount-a-year',
  'spot-at-most',
  'keep-out',
  'keep-out-until-dry',
  'ventilate',
  'with-people-present',
  'out-of-reach',
] as const satisfies readonly (keyof LabelSays)[]

function leftOut(treatment: Treatment, says: LabelSays, citation: Citation): HeldToLabel[] {
  const absent = limits.filter(
    (limit) => says[limit] === undefined && (limit !== 'spot-at-most' || treatment.method === 'spot'),
  )
  if (absent.length === 0) return []
  return [
    {
      name: 'left-out',
      duty: 'whatever else its label limits',
      citation,
      ...notChecked(
        'limits of which the register tells nothing; the printed label may say nothing of them either',
        `label facts ${absent.map((limit) => `\`${limit}\``).join(', ')} of ${treatment.productId}`,
      ),
    },
  ]
}
