import type { Day, Problem } from '../types.js'

/** Whether a problem is true on a day. */
export function standsOn(problem: Problem, day: Day): boolean {
  return problem.from <= day && (problem.until === undefined || day < problem.until)
}
