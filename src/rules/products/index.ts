import type { Rule } from '../rule.js'
import { fileChanged } from './file-changed.js'
import { fileMissing } from './file-missing.js'
import { labelNotInData } from './label-not-in-data.js'
import { minimumRiskWithRegistration } from './minimum-risk-with-registration.js'
import { namesDifferInCapitals } from './names-differ-in-capitals.js'
import { notRegisteredInState } from './not-registered-in-state.js'
import { pesticideWithoutRegistration } from './pesticide-without-registration.js'
import { productCancelled } from './product-cancelled.js'
import { productNotInRegister } from './product-not-in-register.js'
import { productWithoutLabel } from './product-without-label.js'
import { productWithoutSds } from './product-without-sds.js'
import { registrationNumberIsNone } from './registration-number-is-none.js'
import { sdsOld } from './sds-old.js'
import { sdsSectionsMissing } from './sds-sections-missing.js'
import { signalWordBelowToxicity } from './signal-word-below-toxicity.js'
import { specialLocalNeedElsewhere } from './special-local-need-elsewhere.js'
import { useProhibited } from './use-prohibited.js'

export const productsRules: readonly Rule[] = [
  productNotInRegister,
  productWithoutLabel,
  productWithoutSds,
  fileMissing,
  fileChanged,
  namesDifferInCapitals,
  registrationNumberIsNone,
  pesticideWithoutRegistration,
  minimumRiskWithRegistration,
  notRegisteredInState,
  specialLocalNeedElsewhere,
  productCancelled,
  useProhibited,
  sdsSectionsMissing,
  sdsOld,
  labelNotInData,
  signalWordBelowToxicity,
]
