// Measures the spatial scan and the comparison of devices: false alarms when catches clump, what is found, and
// time. Prints the tables in src/measure/README.md: `npm run build && node tests/bench/clusters.js`, or one of
// `scan`, `devices`, `ledgers`, `ratios`, `time`.
import { benjaminiHochberg } from '../../dist/measure/false-discovery.js'
import { outlyingDevices } from '../../dist/measure/outlying-devices.js'
import { multinomialInto } from '../../dist/measure/random-draws.js'
import { rateRatio } from '../../dist/measure/rate-ratio.js'
import { ratioToOthers } from '../../dist/measure/ratio-to-others.js'
import { logLikelihoodRatio, scanOrder } from '../../dist/measure/scan-windows.js'
import { negativeBinomial, pick, poisson, seededRandom } from '../../dist/measure/seeded-random.js'
import { spatialScan } from '../../dist/measure/spatial-scan.js'

const times = Number(process.env.TIMES ?? 1000)
const seed = 20260312
const percent = (share) => `${(100 * share).toFixed(1)} %`
const row = (cells) => console.log(`| ${cells.join(' | ')} |`)
const caught = (random, mean, k) =>
  k === Infinity ? poisson(random, mean) : negativeBinomial(random, mean, k)

/** Devices at random places; those within a fifth of the first have `factor` times the rate. */
function map(random, { devices, mean, k, effort, factor }) {
  const spots = Array.from({ length: devices }, () => ({ x: random.next(), y: random.next() }))
  return spots.map((spot) => {
    const near = Math.hypot(spot.x - spots[0].x, spot.y - spots[0].y) < 0.2
    const own = effort === 'even' ? 1 : pick(random, [1, 2, 4])
    return { ...spot, effort: own, count: caught(random, mean * own * (near ? factor : 1), k) }
  })
}

function scanTable() {
  console.log('\nShare of maps with a cluster at p <= 0.05 (199 replicates)\n')
  row(['map', 'even chance, none there', 'shuffled, none there', 'shuffled, 5 times the rate within a fifth'])
  const settings = [
    [20, 2, Infinity, 'even'],
    [20, 2, 1, 'even'],
    [50, 2, Infinity, 'even'],
    [50, 2, 3, 'even'],
    [50, 2, 0.5, 'even'],
    [50, 0.3, 0.5, 'even'],
    [50, 10, 1, 'even'],
    [50, 2, 1, '1, 2 or 4'],
    [50, 10, 0.5, '1, 2 or 4'],
  ]
  for (const [devices, mean, k, effort] of settings) {
    const shares = [
      ['even', 1],
      ['shuffled', 1],
      ['shuffled', 5],
    ].map(([chance, factor]) => {
      const random = seededRandom(seed).fork(`scan ${devices} ${mean} ${k} ${effort} ${factor}`)
      let alarms = 0
      for (let time = 0; time < times; time++) {
        const scan = spatialScan(map(random, { devices, mean, k, effort, factor }), {
          chance,
          replicates: 199,
          seed: time,
        })
        if (scan.found && scan.clusters[0].p <= 0.05) alarms++
      }
      return percent(alarms / times)
    })
    row([`${devices} devices, mean ${mean}, k ${k === Infinity ? '∞' : k}, effort ${effort}`, ...shares])
  }
}

/** Every device by the plain exact comparison, as if catches did not clump. */
function plainDevices(devices) {
  const [count, effort] = devices.reduce(([c, e], one) => [c + one.count, e + one.effort], [0, 0])
  return benjaminiHochberg(
    devices.map((one) => {
      const ratio = rateRatio(one.count, one.effort, count - one.count, effort - one.effort)
      return one.count * (effort - one.effort) > (count - one.count) * one.effort ? ratio.pCentral / 2 : 1
    }),
  ).map((p) => p <= 0.05)
}

function deviceTable() {
  console.log('\nShare of rooms in which a device is called outlying\n')
  row(['room', 'as if not clumped, none there', 'none there', '10 times the rate: found', '30 times: found'])
  const settings = [
    [5, 0.5, 0.5, 'even'],
    [5, 2, 0.5, 'even'],
    [5, 10, 3, 'even'],
    [8, 2, 1, 'even'],
    [8, 10, Infinity, 'even'],
    [20, 0.5, 0.5, 'even'],
    [20, 2, 1, 'even'],
    [20, 10, 0.5, 'even'],
    [20, 10, 3, '1, 2 or 4'],
    [40, 2, Infinity, 'even'],
    [40, 10, 0.5, '1, 2 or 4'],
    [40, 10, 3, '1, 2 or 4'],
  ]
  for (const [devices, mean, k, effort] of settings) {
    const shares = [
      [1, plainDevices, () => true],
      ...[1, 10, 30].map((factor) => [factor, null, (at) => at === 0 || factor === 1]),
    ].map(([factor, plain, counts]) => {
      const random = seededRandom(seed).fork(`devices ${devices} ${mean} ${k} ${effort} ${factor}`)
      let found = 0
      for (let time = 0; time < 2 * times; time++) {
        const room = Array.from({ length: devices }, (_, at) => {
          const own = effort === 'even' ? 1 : pick(random, [1, 2, 4])
          return {
            group: 'room',
            effort: own,
            count: caught(random, mean * own * (at === 0 ? factor : 1), k),
          }
        })
        const outlying = plain
          ? plain(room)
          : outlyingDevices(room).map((one) => one.compared && one.outlying)
        if (outlying.some((is, at) => is && counts(at))) found++
      }
      return percent(found / (2 * times))
    })
    row([`${devices} devices, mean ${mean}, k ${k === Infinity ? '∞' : k}, effort ${effort}`, ...shares])
  }
}

/** What becomes of the comparison when many rooms are adjusted together, each by itself or with the clumping of all. */
function ledgerTable() {
  console.log('\nShare of ledgers in which any device is called outlying, none being so\n')
  row(['ledger', 'each room by its own', 'with the clumping of all'])
  const various = [0.35, 0.35, 0.5, 0.6, 1, 1, 1.5, 2]
  const settings = [
    [1, 6, 1, [0.35]],
    [10, 6, 1, [0.35]],
    [60, 6, 0.2, [0.35]],
    [60, 6, 1, [0.35]],
    [60, 6, 3, [0.35]],
    [60, 20, 1, [0.5]],
    [60, 20, 10, [1]],
    [60, 8, 5, [2]],
    [4, 6, 1, various],
    [16, 6, 1, various],
    [64, 6, 4, various],
    [64, 12, 3, various],
  ]
  for (const [rooms, devices, mean, ks] of settings) {
    const random = seededRandom(seed).fork(`ledgers ${rooms} ${devices} ${mean} ${ks}`)
    const ledgers = Math.ceil(times / 4)
    let [alone, together] = [0, 0]
    for (let time = 0; time < ledgers; time++) {
      const groups = Array.from({ length: rooms }, (_, room) =>
        Array.from({ length: devices }, () => ({
          group: String(room),
          effort: 1,
          count: caught(random, mean, ks[room % ks.length]),
        })),
      )
      const own = groups.flatMap((group) => outlyingDevices(group)).map((one) => one.p ?? null)
      if (benjaminiHochberg(own).some((p) => p !== null && p <= 0.05)) alone++
      if (outlyingDevices(groups.flat()).some((one) => one.compared && one.outlying)) together++
    }
    const k = ks.length === 1 ? ks[0] : '0.35 to 2'
    row([
      `${rooms} rooms of ${devices}, mean ${mean}, k ${k}`,
      percent(alone / ledgers),
      percent(together / ledgers),
    ])
  }
}

function ratioTable() {
  console.log('\nShare of 95 % intervals of a device against the others that hold the truth\n')
  const factors = [1, 3, 10, 30]
  row(['room', ...factors.map((factor) => `${factor} times`), '10 times, of those called outlying'])
  const settings = [
    [8, 2, Infinity],
    [8, 2, 1],
    [20, 0.5, 0.5],
    [20, 2, 1],
    [20, 10, 1],
    [20, 10, 3],
  ]
  for (const [devices, mean, k] of settings) {
    const shares = factors.map((factor) => {
      const random = seededRandom(seed).fork(`ratios ${devices} ${mean} ${k} ${factor}`)
      let [told, held, called, heldOfCalled] = [0, 0, 0, 0]
      for (let time = 0; time < times; time++) {
        const counts = Array.from({ length: devices }, (_, at) =>
          caught(random, at === 0 ? mean * factor : mean, k),
        )
        const [first] = outlyingDevices(counts.map((count) => ({ group: 'room', count, effort: 1 })))
        if (!first.compared) continue
        const limits = ratioToOthers({
          count: counts[0],
          effort: 1,
          othersCount: counts.slice(1).reduce((sum, one) => sum + one, 0),
          othersEffort: devices - 1,
          dispersion: first.dispersion,
        })
        if (!limits) continue
        const holds = limits.lower <= factor && (limits.upper === null || factor <= limits.upper)
        told++
        if (holds) held++
        if (first.outlying) called++
        if (first.outlying && holds) heldOfCalled++
      }
      return { all: held / told, called: called === 0 ? null : heldOfCalled / called }
    })
    const atTen = shares[2].called
    row([
      `${devices} devices, mean ${mean}, k ${k === Infinity ? '∞' : k}`,
      ...shares.map(({ all }) => percent(all)),
      atTen === null ? '–' : percent(atTen),
    ])
  }
}

/** The scan as the paper writes it: the ratio of every circle of every replicate, logarithms and all. */
function everyRatio(devices, replicates) {
  const { order, ends } = scanOrder(devices)
  const efforts = Float64Array.from(devices, ({ effort }) => effort)
  const counts = new Float64Array(devices.length)
  const all = devices.reduce((sum, { count }) => sum + count, 0)
  const effort = efforts.reduce((sum, one) => sum + one, 0)
  const random = seededRandom(seed)
  let best = 0
  for (let replicate = 0; replicate < replicates; replicate++) {
    multinomialInto(random, all, efforts, counts)
    for (let first = 0; first < order.length; first += devices.length) {
      let [inside, within] = [0, 0]
      for (let place = first; place < first + devices.length; place++) {
        within += efforts[order[place]]
        if (within > effort / 2) break
        inside += counts[order[place]]
        if (ends[place]) best = Math.max(best, logLikelihoodRatio(inside, (all * within) / effort, all))
      }
    }
  }
  return best
}

function timeTable() {
  const random = seededRandom(seed)
  const devices = map(random, { devices: 500, mean: 2, k: 1, effort: '1, 2 or 4', factor: 1 })
  const ways = {
    'every ratio worked out (baseline)': () => everyRatio(devices, 999),
    'scan, even chance': () => spatialScan(devices, { chance: 'even' }),
    'scan, shuffled': () => spatialScan(devices),
  }
  console.log(
    `\n500 devices, 999 replicates, one core, node ${process.version}; five rounds in turn after one thrown away\n`,
  )
  const seconds = Object.fromEntries(Object.keys(ways).map((name) => [name, []]))
  for (let round = 0; round <= 5; round++) {
    for (const [name, run] of Object.entries(ways)) {
      const start = process.hrtime.bigint()
      run()
      if (round > 0) seconds[name].push(Number(process.hrtime.bigint() - start) / 1e9)
    }
  }
  const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)]
  const [baseline] = Object.values(seconds)
  row(['what', 'seconds', 'ratio to the baseline'])
  for (const [name, list] of Object.entries(seconds)) {
    const ratios = list.map((one, at) => one / baseline[at])
    row([
      name,
      median(list).toFixed(2),
      `${median(ratios).toFixed(2)} (${Math.min(...ratios).toFixed(2)} to ${Math.max(...ratios).toFixed(2)})`,
    ])
  }
}

const tables = {
  scan: scanTable,
  devices: deviceTable,
  ledgers: ledgerTable,
  ratios: ratioTable,
  time: timeTable,
}
const wanted = process.argv[2]
for (const [name, table] of Object.entries(tables)) if (wanted === undefined || wanted === name) table()
