import type { ConditionHistory } from '../../ledger/condition-history.js'
import type { Actor } from '../../types.js'

/** Whom a condition is put to: its owner, or whoever at the site answers for the owner. */
export function whoMends(owner: ConditionHistory['owner']): Actor {
  switch (owner) {
    case 'contractor':
      return 'technician'
    case 'kitchen':
    case 'custodial':
    case 'teacher':
    case 'office':
      return 'site manager'
    default:
      return 'maintenance'
  }
}
