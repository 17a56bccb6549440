import type { FaultKind } from '../fault.js'

export const rulebookFaults: readonly FaultKind[] = []
