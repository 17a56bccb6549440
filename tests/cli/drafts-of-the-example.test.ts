import { cpSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { allRules } from '../../src/rules/all.js'
import { newFolder, run } from './run-doorsweep.js'

const district = new URL('../../examples/district/', import.meta.url).pathname

const applications = readdirSync(join(district, 'sites')).flatMap((site) => {
  const folder = `sites/${site}/applications`
  try {
    return readdirSync(join(district, folder)).map((name) => `${folder}/${name}`)
  } catch {
    return []
  }
})
/** Rules that tell of a record that cannot be read as one. */
const reading = new Set(allRules.filter(({ reach }) => reach === 'file').map(({ id }) => id))

const statusOf = (file: string) => String(parse(readFileSync(join(district, file), 'utf8')).status)

/** What someone writes into the lines that a draft leaves open. */
const filled: Readonly<Record<string, string>> = {
  time: '15:40 to 16:05',
  amount: '2 g',
  'treated-extent': '3 ft2',
  equipment: 'bait gun',
  lot: 'L-2211',
  dilution: '{water: 1 gal}',
  weather: '{wind: 4 mph, wind-from: SW, temperature: 64 F, sky: dry}',
  pupils: 'none in the building',
  identified: '{by: okafor, how: under a hand lens}',
  threshold: '2 nymphs on K1',
  reason: 'second catch after cleaning',
  'tried-first': 'vacuumed',
  'chosen-because': 'bait was not taken',
  approved: '{by: [marsh], on: 2025-07-01}',
  dry: '{at: 16:05, by: okafor}',
  reopened: '{at: 16:30, by: lind}',
  'follow-up': '{by: 2027-01-04, look: K1}',
}

/** A draft with its open lines filled in, and its status as it is once it was carried out. */
function filledIn(draft: string): string {
  return draft
    .replace(/^# ([a-z-]+): FILL IN #.*$/gm, (line, key) => (key in filled ? `${key}: ${filled[key]}` : line))
    .replace(/^status: planned$/m, 'status: done')
}

describe('a draft of the record of each application of the example district', () => {
  it('there are some', () => {
    expect(applications.length).toBeGreaterThan(4)
  })

  it.each(applications.filter((file) => statusOf(file) !== 'cancelled'))(
    '%s: filled in and put in its place, it is read by check',
    async (file) => {
      const day = file.split('/').at(-1)?.slice(0, 10) ?? ''
      const ran = await run(district, ['precheck', file, '--as-of', day, '--draft', 'record'])
      expect(ran.err).toBe('')
      expect(ran.out).toContain('status: planned')
      // What the draft says is what the record says, but for its status.
      const { status, ...said } = parse(readFileSync(join(district, file), 'utf8'))
      const { status: drafted, ...saidAgain } = parse(ran.out)
      expect(drafted).toBe('planned')
      expect(saidAgain).toEqual(said)
      // Every open line is one that this test knows how to fill.
      const record = filledIn(ran.out)
      expect(record).not.toContain('FILL IN')
      expect(Object.keys(parse(record)).length).toBeGreaterThanOrEqual(Object.keys(said).length)
      const copy = newFolder()
      cpSync(district, copy, { recursive: true })
      for (const text of [ran.out, record]) {
        writeFileSync(join(copy, file), text)
        const checked = await run(copy, ['check', '--as-of', '2026-06-30', '--format', 'json'])
        expect([checked.code === 2, checked.err]).toEqual([false, ''])
        const { problems, 'not-checked': notChecked } = JSON.parse(checked.out)
        expect(notChecked).toEqual([])
        const ofIt = (problems as { rule: string; location: { file: string } }[]).filter(
          ({ location }) => location.file === file,
        )
        const ofReading = ofIt.filter(({ rule }) => reading.has(rule))
        expect(ofReading).toEqual([])
      }
    },
  )

  it.each(applications.filter((file) => statusOf(file) === 'cancelled'))(
    '%s was cancelled, and that is said',
    async (file) => {
      const ran = await run(district, ['precheck', file, '--as-of', '2026-06-30', '--draft', 'record'])
      expect([ran.code, ran.out]).toEqual([2, ''])
      expect(ran.err).toContain('says that it was cancelled')
    },
  )
})
