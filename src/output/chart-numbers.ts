/** A number that can be drawn. */
export function drawable(number: number | null | undefined): number | null {
  return number !== null && number !== undefined && Number.isFinite(number) ? number : null
}

/** Ticks as text, all with the decimals that the finest of them needs, and a plain minus sign and dot. */
export function tickTexts(ticks: readonly number[]): string[] {
  const step = ticks.length < 2 ? 1 : Math.abs((ticks[1] ?? 1) - (ticks[0] ?? 0))
  const decimals = step > 0 ? Math.max(0, -Math.floor(Math.log10(step) + 1e-9)) : 0
  // A step of 0.25 has one digit more than its size tells.
  const finer = [0, 1].find((more) => isWhole(step * 10 ** (decimals + more))) ?? 1
  return ticks.map((tick) => tick.toFixed(Math.min(decimals + finer, 12)))
}

/** A number in words of a description or beside a bar: at most four digits that count. */
export function numberText(number: number): string {
  if (number === 0) return '0'
  const decimals = Math.max(0, 3 - Math.floor(Math.log10(Math.abs(number))))
  const text = number.toFixed(Math.min(decimals, 12))
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text
}

export function isWhole(number: number): boolean {
  return Math.abs(number - Math.round(number)) < 1e-9 * Math.max(1, Math.abs(number))
}
