import type { FaultKind } from '../fault.js'

export const needFaults: readonly FaultKind[] = []
