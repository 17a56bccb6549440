// Reads generated ledgers whose truth is known, and tells how often the program is right. Prints the tables in
// src/measure/README.md: `npm run build && node tests/bench/known-truth.js`, or one hardship: `… known-truth.js season`.
// LEDGERS (1000) a hardship, half of them with something planted; WORKERS (1) at a time.
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads'
import { hardships } from '../../dist/writing/demo/trials.js'
import { measured, tablesOf } from './known-truth/questions.js'
import { addSums } from './known-truth/tally.js'

const ledgers = Number(process.env.LEDGERS ?? 1000)
const atATime = 100

const inWorker = (part) =>
  new Promise((resolve, reject) => {
    const worker = new Worker(new URL(import.meta.url), {
      workerData: part,
      resourceLimits: { maxYoungGenerationSizeMb: 128 },
    })
    worker.once('message', resolve)
    worker.once('error', reject)
  })

function partsOf(wanted) {
  const parts = []
  for (let first = 1; first <= ledgers; first += atATime)
    for (const hardship of wanted)
      parts.push({ hardship, first, last: Math.min(ledgers, first + atATime - 1) })
  return parts
}

async function measureAll(wanted) {
  const sums = new Map(wanted.map((hardship) => [hardship, {}]))
  const left = partsOf(wanted)
  const next = async () => {
    for (let part = left.shift(); part !== undefined; part = left.shift())
      addSums(sums.get(part.hardship), await inWorker(part))
  }
  await Promise.all(Array.from({ length: Number(process.env.WORKERS ?? 1) }, next))
  return sums
}

if (isMainThread) {
  const wanted = hardships.filter((one) => process.argv[2] === undefined || process.argv[2] === one)
  console.log(tablesOf(await measureAll(wanted)))
} else parentPort.postMessage(measured(workerData))
