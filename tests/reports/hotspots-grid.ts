/** Devices in rows of five, ten feet apart, T1 to T20 unless said otherwise. */
export function grid({
  area,
  devices = 20,
  name = 'T',
  kind = 'sticky-trap',
  pest = 'german-cockroach',
}: {
  readonly area: (at: number) => string
  readonly devices?: number
  readonly name?: string
  readonly kind?: string
  readonly pest?: string
}): string[] {
  return Array.from({ length: devices }, (_, n) => {
    const [across, down] = [10 * (n % 5), 10 * Math.floor(n / 5)]
    return `${name}${n + 1}: {kind: ${kind}, area: ${area(n + 1)}, for: [${pest}], at: [${across}, ${down}]}`
  })
}

export const setOf = (devices: readonly string[]) => `set: {${devices.join(', ')}}`

export function readingsOf(
  devices: number,
  counts: (at: number) => number,
  { name = 'T', pest = 'german-cockroach' } = {},
): string {
  return `readings: {${Array.from({ length: devices }, (_, n) => `${name}${n + 1}: {${pest}: ${counts(n + 1)}, renewed: yes}`).join(', ')}}`
}
