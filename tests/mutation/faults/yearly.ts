import type { FaultKind } from '../fault.js'

export const yearlyFaults: readonly FaultKind[] = []
