import type { FaultKind } from '../fault.js'

export const noticeFaults: readonly FaultKind[] = []
