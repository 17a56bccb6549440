import { conditionsRules } from './conditions/index.js'
import { devicesRules } from './devices/index.js'
import { exceptionRules } from './exceptions/index.js'
import { inspectionRules } from './inspection/index.js'
import { linksRules } from './links/index.js'
import { placementRules } from './placement/index.js'
import { productsRules } from './products/index.js'
import { readingRules } from './reading/index.js'
import type { Rule } from './rule.js'

/** Every rule there is, family by family, in the order of the pages. */
export const allRules: readonly Rule[] = [
  ...readingRules,
  ...linksRules,
  ...devicesRules,
  ...inspectionRules,
  ...placementRules,
  ...conditionsRules,
  ...productsRules,
  ...exceptionRules(() => allRules),
]

const byId = new Map(allRules.map((rule) => [rule.id, rule]))

export function ruleById(id: string): Rule | undefined {
  return byId.get(id)
}
