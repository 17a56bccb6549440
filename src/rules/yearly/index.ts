import type { Rule } from '../rule.js'
import { productNotOnAnnualList } from './product-not-on-annual-list.js'
import { yearlyFilingIncomplete } from './yearly-filing-incomplete.js'
import { yearlyFilingMissing } from './yearly-filing-missing.js'

export const yearlyRules: readonly Rule[] = [
  yearlyFilingMissing,
  yearlyFilingIncomplete,
  productNotOnAnnualList,
]
