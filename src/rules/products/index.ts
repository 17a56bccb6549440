import type { Rule } from '../rule.js'
import { fileChanged } from './file-changed.js'
import { fileMissing } from './file-missing.js'
import { productNotInRegister } from './product-not-in-register.js'
import { productWithoutLabel } from './product-without-label.js'
import { productWithoutSds } from './product-without-sds.js'

export const productsRules: readonly Rule[] = [
  productNotInRegister,
  productWithoutLabel,
  productWithoutSds,
  fileMissing,
  fileChanged,
]
