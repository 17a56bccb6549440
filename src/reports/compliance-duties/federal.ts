import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isCancelled } from '../../ledger/use-classes.js'
import {
  lacksRegistration,
  pesticideWithoutRegistration,
} from '../../rules/products/pesticide-without-registration.js'
import { productCancelled } from '../../rules/products/product-cancelled.js'
import { otherNumber, registrationNumberIsNone } from '../../rules/products/registration-number-is-none.js'
import {
  isForAnotherState,
  specialLocalNeedElsewhere,
} from '../../rules/products/special-local-need-elsewhere.js'
import type { Citation } from '../../types.js'
import type { Held } from './held.js'
import { notApplicable, notChecked, notShown, shown } from './held.js'

export interface HeldToFederalLaw extends Held {
  readonly name: string
  readonly duty: string
  readonly citation: Citation
}

/** What the federal act asks of a product wherever it is used, whatever rulebooks a district lists. */
export function heldToFederalLaw(view: SiteView, treatment: Treatment): HeldToFederalLaw[] {
  return [
    {
      name: 'registration',
      duty: 'a pesticide that is registered',
      citation:
        treatment.product && otherNumber(treatment.product.data) !== undefined
          ? registrationNumberIsNone.source
          : pesticideWithoutRegistration.source,
      ...ofRegistration(treatment),
    },
    {
      name: 'special-local-need',
      duty: 'a special local need registration only in its own state',
      citation: specialLocalNeedElsewhere.source,
      ...ofSpecialLocalNeed(view, treatment),
    },
    {
      name: 'cancelled',
      duty: 'nothing whose registration had ended',
      citation: productCancelled.source,
      ...ofCancellation(treatment),
    },
  ]
}

const exempt = notApplicable('a minimum-risk product, which is exempt from registration')

function ofRegistration({ product }: Treatment): Held {
  if (!product) return notChecked('the product is not in the register')
  if (product.data.kind === 'minimum-risk') return exempt
  const { registration, 'special-local-need': need } = product.data
  if (otherNumber(product.data) !== undefined)
    return notShown(`\`${registration}\`, entered as its number, has no form of one`)
  return lacksRegistration(product.data)
    ? notShown('the register shows no registration number', `registration of ${product.id}`)
    : shown(`number ${registration ?? need}`, product.file)
}

function ofSpecialLocalNeed(view: SiteView, { product }: Treatment): Held {
  const number = product?.data['special-local-need']
  if (!product || number === undefined)
    return notApplicable('not entered under a special local need registration')
  const { state } = view.district.district.data
  if (!isForAnotherState(product.data, state ?? '')) return shown(`${number}, used in ${state}`, product.file)
  return state === undefined
    ? notChecked(`${number}; district.yaml names no state`, 'state of district.yaml')
    : notShown(`${number}, used in ${state}`)
}

function ofCancellation(treatment: Treatment): Held {
  const { product } = treatment
  if (!product) return notChecked('the product is not in the register')
  const { cancelled } = product.data
  if (!cancelled) return shown('the register shows no end of its registration', product.file)
  const until = cancelled['use-until'] === undefined ? '' : `, to be used up until ${cancelled['use-until']}`
  const ended = `the register shows it ended ${cancelled.on}${until}`
  return isCancelled(treatment) ? notShown(ended) : shown(ended, product.file)
}
