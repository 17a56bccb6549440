/** Where a device stands, in any unit that both axes share. */
export interface Spot {
  x: number
  y: number
}

/**
 * Every circle that has to be looked at: for each device as centre, all devices by distance. Devices at equal
 * distance enter a circle together, so only some places in that order end a circle.
 */
export interface ScanOrder {
  devices: number
  /** Row by row, a row a centre: the devices by distance, nearest (the centre itself) first. */
  order: Int32Array
  /** 1 where a circle ends: the next device is farther away. Same shape. */
  ends: Uint8Array
  /** Squared distance of that device from the centre. Same shape. */
  squares: Float64Array
}

/** Distances that differ by less than this share are equal but for rounding. */
const SAME_DISTANCE = 1e-12

/** All circles of Kulldorff's scan; time and room grow with the square of the number of devices. */
export function scanOrder(spots: readonly Spot[]): ScanOrder {
  const devices = spots.length
  const order = new Int32Array(devices * devices)
  const ends = new Uint8Array(devices * devices)
  const squares = new Float64Array(devices * devices)
  const away = new Float64Array(devices)
  const row = Array.from({ length: devices }, (_, i) => i)
  spots.forEach((centre, at) => {
    spots.forEach(({ x, y }, i) => {
      away[i] = (x - centre.x) ** 2 + (y - centre.y) ** 2
    })
    const distance = (i: number) => away[i] ?? 0
    const sorted = [...row].sort((a, b) => distance(a) - distance(b) || a - b)
    sorted.forEach((device, place) => {
      const next = sorted[place + 1]
      const apart = next === undefined || distance(next) - distance(device) > SAME_DISTANCE * distance(next)
      order[at * devices + place] = device
      ends[at * devices + place] = apart ? 1 : 0
      squares[at * devices + place] = distance(device)
    })
  })
  return { devices, order, ends, squares }
}

/** Counts and efforts of all devices, in one order. */
export interface ScanCatches {
  counts: Float64Array
  efforts: Float64Array
}

/** Leeway for sums of efforts that come to one half but for rounding. */
const HALF = 0.5 * (1 + 1e-12)
/** An excess below this share of what was expected is rounding. */
const NO_EXCESS = 1e-12

/**
 * Kulldorff's log likelihood ratio of a circle with `inside` of `all` animals where `expected` would be inside
 * if rates were equal: zero unless it holds more than expected.
 */
export function logLikelihoodRatio(inside: number, expected: number, all: number): number {
  if (!(inside > expected * (1 + NO_EXCESS))) return 0
  const outside = all - inside
  const rest = outside === 0 ? 0 : outside * Math.log(outside / (all - expected))
  return inside * Math.log(inside / expected) + rest
}

/** The largest ratio over all circles with at most half of the effort: what one replicate gives. */
export function largestRatio({ devices, order, ends }: ScanOrder, { counts, efforts }: ScanCatches): number {
  let all = 0
  let effort = 0
  for (let i = 0; i < devices; i += 1) {
    all += counts[i] as number
    effort += efforts[i] as number
  }
  const most = effort * HALF
  const rate = all / effort
  let best = 0
  for (let row = 0; row < devices * devices; row += devices) {
    let inside = 0
    let within = 0
    for (let place = row; place < row + devices; place += 1) {
      const device = order[place] as number
      within += efforts[device] as number
      if (within > most) break
      inside += counts[device] as number
      if (ends[place] === 0) continue
      const expected = within * rate
      const excess = inside - expected
      // The ratio is at most excess² · all / (expected · (all − expected)): most circles need no logarithm.
      if (excess > 0 && excess * excess * all > best * expected * (all - expected)) {
        best = Math.max(best, logLikelihoodRatio(inside, expected, all))
      }
    }
  }
  return best
}

/** One circle as it is ranked. */
export interface ScanWindow {
  centre: number
  /** Of the circle. */
  squaredRadius: number
  /** Devices in it: the first so many of the centre's row. */
  size: number
  count: number
  effort: number
  expected: number
  logLikelihoodRatio: number
}

/** Every distinct set of devices that a circle holds, with the smallest such circle and how far it stands out. */
export function scanWindows(scan: ScanOrder, { counts, efforts }: ScanCatches): ScanWindow[] {
  const { devices, order, ends, squares } = scan
  const all = counts.reduce((sum, one) => sum + one, 0)
  const effort = efforts.reduce((sum, one) => sum + one, 0)
  const windows = new Map<string, ScanWindow>()
  const bits = new Uint16Array(Math.ceil(devices / 16))
  for (let centre = 0; centre < devices; centre += 1) {
    const first = centre * devices
    bits.fill(0)
    let inside = 0
    let within = 0
    for (let place = first; place < first + devices; place += 1) {
      const device = order[place] as number
      within += efforts[device] as number
      if (within > effort * HALF) break
      inside += counts[device] as number
      bits[device >> 4] = (bits[device >> 4] as number) | (1 << (device & 15))
      if (ends[place] === 0) continue
      const key = String.fromCharCode(...bits)
      const squaredRadius = squares[place] as number
      if (squaredRadius >= (windows.get(key)?.squaredRadius ?? Infinity)) continue
      const expected = (all * within) / effort
      windows.set(key, {
        centre,
        squaredRadius,
        size: place - first + 1,
        count: inside,
        effort: within,
        expected,
        logLikelihoodRatio: logLikelihoodRatio(inside, expected, all),
      })
    }
  }
  return [...windows.values()]
}

/** The devices in a circle, in ascending order. */
export function membersOf({ devices, order }: ScanOrder, { centre, size }: ScanWindow): number[] {
  return [...order.subarray(centre * devices, centre * devices + size)].sort((a, b) => a - b)
}
