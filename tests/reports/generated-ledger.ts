import { isoOf } from '../../src/measure/calendar.js'
import { day } from '../ledger/small-site.js'

/** Numbers from 0 to 1 that look random and are the same for the same seed: Park & Miller (1988), CACM 31:1192–1201. */
function numbersFrom(seed: number): () => number {
  let state = seed
  return () => {
    state = (state * 48_271) % 2_147_483_647
    return state / 2_147_483_647
  }
}

/** A count with a mean, by counting exponential waits in one unit of time. */
function countAround(mean: number, number: () => number): number {
  let waited = -Math.log(1 - number()) / mean
  let count = 0
  while (waited < 1) {
    count++
    waited -= Math.log(1 - number()) / mean
  }
  return count
}

/**
 * A ledger of three sites with five areas each, in every one a set of boards for two pests, read and renewed every
 * 28 days of 2026. Each area has a change of its own, from a third less to a half more a month.
 */
export function generatedLedger(seed: number): Map<string, string> {
  const number = numbersFrom(seed)
  const files = new Map([
    [
      'district.yaml',
      'format: 1\nname: Example District\ntime-zone: UTC\nrecords-begin: 2026-01-01\ncoordinator: [{from: 2026-01-01, who: marsh}]\nrulebooks: []\ncalendar: []\n',
    ],
  ])
  for (const site of ['ash', 'elm', 'oak']) {
    const areas = [1, 2, 3, 4, 5].map((at) => ({
      id: `room-${at}`,
      factor: 0.67 + 0.83 * number(),
      mean: 1 + 8 * number(),
    }))
    files.set(
      `sites/${site}/site.yaml`,
      `name: ${site}\nsite-manager: [{from: 2026-01-01, who: lind}]\ncomplaint-log: office\ncontract: []\nareas: {${areas.map(({ id }) => `${id}: {kind: classroom}`).join(', ')}}\n`,
    )
    const set = areas.map(
      ({ id }, at) => `K${at}: {kind: sticky-trap, area: ${id}, for: [german-cockroach, ant]}`,
    )
    files.set(
      `sites/${site}/visits/2026-01-02-okafor.yaml`,
      `purpose: set-up\nby: okafor\nset: {${set.join(', ')}}\n`,
    )
    for (let look = 1; look <= 12; look++) {
      const readings = areas.map(({ factor, mean }, at) => {
        const count = () => countAround(mean * factor ** look, number)
        return `K${at}: {german-cockroach: ${count()}, ant: ${count()}, renewed: yes}`
      })
      files.set(
        `sites/${site}/visits/${isoOf(day('2026-01-02') + 28 * look)}-okafor.yaml`,
        `purpose: follow-up\nby: okafor\nreadings: {${readings.join(', ')}}\n`,
      )
    }
  }
  return files
}
