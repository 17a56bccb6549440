import type { FaultKind } from '../fault.js'

export const productNumberFaults: readonly FaultKind[] = []
