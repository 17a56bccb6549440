import type { Rule } from '../rule.js'
import { complaintLogNotRead } from './complaint-log-not-read.js'

export const inspectionRules: readonly Rule[] = [complaintLogNotRead]
