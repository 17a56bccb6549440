import { applicationRecordsRules } from './application-records/index.js'
import { conditionsRules } from './conditions/index.js'
import { devicesRules } from './devices/index.js'
import { exceptionRules } from './exceptions/index.js'
import { inspectionRules } from './inspection/index.js'
import { labelUseRules } from './label-use/index.js'
import { licencesRules } from './licences/index.js'
import { linksRules } from './links/index.js'
import { needRules } from './need/index.js'
import { noticesRules } from './notices/index.js'
import { placementRules } from './placement/index.js'
import { productsRules } from './products/index.js'
import { readingRules } from './reading/index.js'
import { reentryRules } from './reentry/index.js'
import type { Rule } from './rule.js'
import { rulebooksRules } from './rulebooks/index.js'
import { yearlyRules } from './yearly/index.js'

/** Every rule there is, family by family, in the order of the pages. */
export const allRules: readonly Rule[] = [
  ...readingRules,
  ...linksRules,
  ...devicesRules,
  ...inspectionRules,
  ...placementRules,
  ...conditionsRules,
  ...productsRules,
  ...licencesRules,
  ...labelUseRules,
  ...needRules,
  ...applicationRecordsRules,
  ...noticesRules,
  ...reentryRules,
  ...yearlyRules,
  ...rulebooksRules(() => allRules),
  ...exceptionRules(() => allRules),
]

const byId = new Map(allRules.map((rule) => [rule.id, rule]))

export function ruleById(id: string): Rule | undefined {
  return byId.get(id)
}
