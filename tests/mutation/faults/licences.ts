import type { FaultKind } from '../fault.js'

export const licenceFaults: readonly FaultKind[] = []
