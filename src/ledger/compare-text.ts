/** Order of two texts by their UTF-16 units: the same on every machine, whatever its locale. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0
}
