import type { FaultKind } from '../fault.js'

export const reentryFaults: readonly FaultKind[] = []
