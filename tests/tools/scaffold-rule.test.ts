import { execFileSync, spawnSync } from 'node:child_process'
import { mkdirSync, readFileSync, symlinkSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { scaffoldRule } from '../../src/tools/scaffold-rule.js'
import { temporaryFolder, writeFiles } from '../files/temporary-folder.js'

const root = fileURLToPath(new URL('../../', import.meta.url))

const emptyFamily =
  "import type { Rule } from '../rule.js'\n\nexport const devicesRules: readonly Rule[] = []\n"

function smallCheckout(index = emptyFamily): string {
  const copy = temporaryFolder()
  writeFiles(copy, [
    ['src/rules/devices/index.ts', index],
    ['src/rules/links/index.ts', emptyFamily],
    ['src/rules/links/dangling-reference.ts', ''],
    ['src/rules/notes/page.txt', 'a folder without an index is no family'],
  ])
  return copy
}

const indexOf = (copy: string) => readFileSync(join(copy, 'src/rules/devices/index.ts'), 'utf8')

describe('the index of the family', () => {
  it('gets its first rule', () => {
    const copy = smallCheckout()
    expect(scaffoldRule(copy, 'devices', 'trap-left-out')).toEqual({
      written: ['src/rules/devices/trap-left-out.ts', 'src/rules/devices/index.ts'],
    })
    expect(indexOf(copy)).toBe(
      "import type { Rule } from '../rule.js'\nimport { trapLeftOut } from './trap-left-out.js'\n\nexport const devicesRules: readonly Rule[] = [trapLeftOut]\n",
    )
  })

  it('keeps imports sorted, and the order of the rules as it was, over several lines once it is long', () => {
    const copy = smallCheckout()
    for (const id of [
      'trap-left-out',
      'a-trap-without-a-name',
      'the-second-trap-of-a-pair-is-missing',
      'lamp-too-old',
      'count-missing-for-a-device',
    ])
      scaffoldRule(copy, 'devices', id)
    expect(indexOf(copy)).toBe(`import type { Rule } from '../rule.js'
import { aTrapWithoutAName } from './a-trap-without-a-name.js'
import { countMissingForADevice } from './count-missing-for-a-device.js'
import { lampTooOld } from './lamp-too-old.js'
import { theSecondTrapOfAPairIsMissing } from './the-second-trap-of-a-pair-is-missing.js'
import { trapLeftOut } from './trap-left-out.js'

export const devicesRules: readonly Rule[] = [
  trapLeftOut,
  aTrapWithoutAName,
  theSecondTrapOfAPairIsMissing,
  lampTooOld,
  countMissingForADevice,
]
`)
  })
})

describe('refuses, and writes nothing', () => {
  it.each([
    ['devices', 'dangling-reference', /^src\/rules\/links\/dangling-reference\.ts is there already/],
    ['traps', 'trap-left-out', /^There is no family traps; there are: devices, links\.$/],
    ['notes', 'trap-left-out', /^There is no family notes/],
    ['../..', 'trap-left-out', /^There is no family/],
    ['devices', 'TrapLeftOut', /^TrapLeftOut is no rule id/],
    ['devices', '../x', /is no rule id/],
    ['devices', 'trap--left', /is no rule id/],
  ])('%s %s', (family, id, why) => {
    const copy = smallCheckout()
    expect(scaffoldRule(copy, family, id)).toEqual({ refused: expect.stringMatching(why) })
    expect(indexOf(copy)).toBe(emptyFamily)
  })

  it('an index that is not in the usual form', () => {
    const odd = "export { devicesRules } from './elsewhere.js'\n"
    const copy = smallCheckout(odd)
    expect(scaffoldRule(copy, 'devices', 'trap-left-out')).toEqual({
      refused: expect.stringMatching(/by hand/),
    })
    expect(indexOf(copy)).toBe(odd)
  })
})

it('what it writes compiles, is well formed, and fails the test over every rule until it is filled in', () => {
  const copy = temporaryFolder()
  mkdirSync(join(copy, 'tests'))
  for (const path of [
    'src',
    'tests/rules',
    'tests/tsconfig.json',
    'tests/vitest.config.ts',
    'tsconfig.json',
    'package.json',
    '.biome.json',
  ])
    execFileSync('cp', ['-r', join(root, path), join(copy, path)])
  symlinkSync(join(root, 'node_modules'), join(copy, 'node_modules'))
  expect(scaffoldRule(copy, 'devices', 'trap-left-out')).toHaveProperty('written')

  const tool = (name: string, ...args: string[]) =>
    spawnSync(join(root, 'node_modules/.bin', name), args, { cwd: copy, encoding: 'utf8' })
  // Only what it says of the new files counts: the rest is as good as the checkout.
  const types = tool('tsc', '-p', 'tsconfig.json', '--noEmit')
  expect(types.stdout.split('\n').filter((line) => /trap-left-out|devices\/index/.test(line))).toEqual([])
  const lint = tool(
    'biome',
    'check',
    '--vcs-enabled=false',
    'src/rules/devices/trap-left-out.ts',
    'src/rules/devices/index.ts',
  )
  expect({ status: lint.status, said: lint.status === 0 ? '' : lint.stderr }).toEqual({ status: 0, said: '' })
  const rules = tool(
    'vitest',
    'run',
    '--config',
    'tests/vitest.config.ts',
    'tests/rules/every-rule.test.ts',
    '-t',
    'trap-left-out',
    '--reporter=json',
  )
  expect(rules.status).toBe(1)
  const results: { title: string; status: string; fullName: string }[] = JSON.parse(rules.stdout)
    .testResults[0].assertionResults
  const failed = results.filter(({ status }) => status === 'failed')
  expect(failed.map(({ fullName }) => fullName)).toEqual([
    'trap-left-out speaks exactly at the marked lines of its failing ledger',
    'trap-left-out says why and what to do, in sentences',
  ])
})
