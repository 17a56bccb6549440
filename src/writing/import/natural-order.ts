import { compareText } from '../../ledger/compare-text.js'

/** Order in which people read ids: K2 before K10. */
export function compareIds(a: string, b: string): number {
  const parts = (id: string) => id.match(/[0-9]+|[^0-9]+/g) ?? []
  const ofB = parts(b)
  for (const [at, part] of parts(a).entries()) {
    const other = ofB[at]
    if (other === undefined) return 1
    const isNumber = /^[0-9]/.test(part) && /^[0-9]/.test(other)
    const order = isNumber ? Number(part) - Number(other) : compareText(part, other)
    if (order !== 0) return order
  }
  return parts(a).length - ofB.length || compareText(a, b)
}
