import type { FaultKind } from '../fault.js'

export const applicationRecordFaults: readonly FaultKind[] = []
