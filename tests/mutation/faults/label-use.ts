import type { FaultKind } from '../fault.js'

export const labelUseFaults: readonly FaultKind[] = []
