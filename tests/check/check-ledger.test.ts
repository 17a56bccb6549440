import { appendFileSync, cpSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { checkLedger } from '../../src/check/check-ledger.js'
import { locateProblems } from '../../src/check/locate-problems.js'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { cacheFolder } from '../../src/files/cache-folder.js'
import { workTree } from '../../src/files/work-tree.js'
import { temporaryFolder, writeFiles } from '../files/temporary-folder.js'
import { day } from '../ledger/small-site.js'
import { drawLedger } from '../writing/demo/drawn-ledger.js'

const options = { asOf: day('2026-06-30'), asOfIsToday: false }

/** Late enough for every file to have settled, though it was written a moment ago. */
const later = () => Date.now() + 60_000

function means(cache: string, { program = 'one', now = later() } = {}) {
  return { threads: 0, filesPerThread: 1, memory: { folderFor: () => cacheFolder(cache), program, now } }
}

/** What a check with a cache says, and how many sites it judged for that. */
async function remembering(
  root: string,
  cache: string,
  others: Parameters<typeof means>[1] = {},
  asked = options,
) {
  const source = workTree(root)
  const result = await checkLedger(source, asked, means(cache, others))
  const { problems, excepted, notChecked, records, sites, later: left } = result
  return {
    judged: result.judged,
    says: {
      problems: locateProblems(problems, source, result.spots),
      excepted,
      notChecked,
      records,
      sites,
      left,
    },
  }
}

/** What a check without one says of what stands on the day. */
function afresh(root: string, asked = options) {
  const source = workTree(root)
  const { problems, excepted, notChecked, records, sites, later: left } = runCheck(source, asked)
  const standing = problems.filter((problem) => standsOn(problem, asked.asOf))
  return {
    problems: locateProblems(standing, source),
    excepted: excepted.filter(({ problem }) => standsOn(problem, asked.asOf)),
    notChecked,
    records,
    sites,
    left,
  }
}

const example = new URL('../../examples/district', import.meta.url).pathname

function copyOfExample(): { root: string; cache: string } {
  const root = join(temporaryFolder(), 'ledger')
  cpSync(example, root, { recursive: true })
  return { root, cache: temporaryFolder() }
}

describe('a check that remembers', () => {
  it('says the same cold, warm and afresh, and judges nothing twice', async () => {
    const { root, cache } = copyOfExample()
    const cold = await remembering(root, cache)
    const warm = await remembering(root, cache)
    expect([cold.judged, warm.judged]).toEqual([3, 0])
    expect(cold.says.problems.length).toBeGreaterThan(10)
    expect(cold.says).toEqual(afresh(root))
    expect(warm.says).toEqual(afresh(root))
  })

  it('judges the one site in which a record was changed', async () => {
    const { root, cache } = copyOfExample()
    await remembering(root, cache)
    appendFileSync(join(root, 'sites/ottermere/site.yaml'), '# a remark\n')
    expect((await remembering(root, cache)).judged).toBe(1)
  })

  it('says what is true on another day', async () => {
    const { root, cache } = copyOfExample()
    await remembering(root, cache)
    for (const asOf of [options.asOf + 1, options.asOf, options.asOf - 40]) {
      const asked = { ...options, asOf }
      expect((await remembering(root, cache, {}, asked)).says).toEqual(afresh(root, asked))
    }
  })

  it('is another program’s memory to another program', async () => {
    const { root, cache } = copyOfExample()
    await remembering(root, cache)
    expect((await remembering(root, cache, { program: 'two' })).judged).toBe(3)
  })

  it('keeps nothing of files so new that they could change again without a sign', async () => {
    const { root, cache } = copyOfExample()
    const now = { now: Date.now() }
    await remembering(root, cache, now)
    expect((await remembering(root, cache, now)).judged).toBe(3)
  })

  it('takes a cache that was cut short, altered or filled with something else for none', async () => {
    const { root, cache } = copyOfExample()
    await remembering(root, cache)
    const file = join(cache, 'sites/ottermere')
    const text = readFileSync(file, 'utf8')
    for (const spoilt of [
      text.slice(0, 900),
      text.replace('2026', '2025'),
      '',
      'null\nnull',
      '\u0000\u0001',
    ]) {
      writeFileSync(file, spoilt)
      const again = await remembering(root, cache)
      expect(again.judged).toBe(1)
      expect(again.says).toEqual(afresh(root))
    }
  })

  it('is never told by a folder that others may write to', async () => {
    const { root, cache } = copyOfExample()
    const { chmodSync } = await import('node:fs')
    await remembering(root, cache)
    chmodSync(cache, 0o777)
    expect((await remembering(root, cache)).judged).toBe(3)
  })

  it('shows a site again that could not be checked, and one that is gone no more', async () => {
    const { root, cache } = copyOfExample()
    await remembering(root, cache)
    writeFileSync(join(root, 'sites/ottermere/site.yaml'), 'name: [')
    const broken = await remembering(root, cache)
    expect(broken.says.notChecked.map(({ what }) => what)).toEqual(['sites/ottermere'])
    expect((await remembering(root, cache)).says).toEqual(broken.says)
    rmSync(join(root, 'sites/ottermere'), { recursive: true })
    expect((await remembering(root, cache)).says).toEqual(afresh(root))
  })
})

describe('whatever a site leans on', () => {
  // One of the district's files after another is changed and taken away: what is remembered must never differ from what is read.
  it('has it judged again when it changes or goes', async () => {
    const { root, cache } = copyOfExample()
    const ofDistrict = workTree(root)
      .list()
      .filter(({ path, kind }) => kind === 'file' && !path.startsWith('sites/'))
    expect(ofDistrict.length).toBeGreaterThan(30)
    for (const [n, { path }] of ofDistrict.entries()) {
      const file = join(root, path)
      const before = readFileSync(file)
      await remembering(root, cache)
      // One in two goes; in the others every number becomes another.
      if (n % 2 === 0) rmSync(file)
      else
        writeFileSync(
          file,
          before.toString('utf8').replace(/\d(?=\b)/g, (digit) => String((Number(digit) + 1) % 10)),
        )
      expect((await remembering(root, cache)).says, path).toEqual(afresh(root))
      writeFileSync(file, before)
    }
  })

  it('is every name there is, where one that leads nowhere was held against them', async () => {
    const { root, cache } = copyOfExample()
    const file = join(root, 'sites/ottermere/applications/2025-09-16-okafor.yaml')
    writeFileSync(file, readFileSync(file, 'utf8').replace('by: okafor', 'by: okaforqqq'))
    const before = await remembering(root, cache)
    const okafor = readFileSync(join(root, 'people/okafor.yaml'))
    writeFileSync(join(root, 'people/okaforqq.yaml'), okafor)
    const after = await remembering(root, cache)
    expect(after.says).toEqual(afresh(root))
    const meant = ({ says }: typeof after) =>
      says.problems.find(({ problem }) => problem.rule === 'dangling-reference')?.problem.args.meant
    expect([meant(before), meant(after)]).toEqual(['okafor', 'okaforqq'])
  })

  it('is that alone: another product of the register has only the sites judged that name it', async () => {
    const root = join(temporaryFolder(), 'ledger')
    const cache = temporaryFolder()
    writeFiles(root, drawLedger({ sites: 6, years: 1, seed: 5, until: '2026-06-30' }).files)
    await remembering(root, cache)
    const files = workTree(root).list()
    const products = files.filter(({ path }) => path.endsWith('/product.yaml'))
    let spared = 0
    for (const { path } of products) {
      const id = path.split('/')[1] ?? ''
      const naming = new Set(
        files
          .filter(
            ({ path: record, kind }) =>
              kind === 'file' && record.startsWith('sites/') && record.endsWith('.yaml'),
          )
          .filter(({ path: record }) => readFileSync(join(root, record), 'utf8').includes(id))
          .map(({ path: record }) => record.split('/')[1]),
      )
      appendFileSync(join(root, path), '# a remark\n')
      const { judged } = await remembering(root, cache)
      expect(judged, id).toBeLessThanOrEqual(naming.size)
      spared += 6 - judged
    }
    expect(spared).toBeGreaterThan(products.length)
  })
})

beforeAll(() => expect(afresh(example).problems.length).toBeGreaterThan(10))
