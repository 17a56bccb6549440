import { describe, expect, it } from 'vitest'
import { allRules } from '../../src/rules/all.js'
import { noLog } from './overlays.js'
import { ledgerFolder, newFolder, run } from './run-doorsweep.js'

const anywhere = newFolder()

describe('a command line that is wrong', () => {
  it.each([
    [['chek'], 'chek'],
    [['check', '--no-such-option'], '--no-such-option'],
    [['check', '--format', 'yaml'], 'yaml'],
    [['check', '--fail-on', 'hint'], 'hint'],
    [['check', '--as-of'], '--as-of'],
    [['report', 'gap'], 'gap'],
    [['report', 'trend', '--no-such-option'], '--no-such-option'],
    [['report', 'thresholds', '--from', '2026-01-01'], '--from'],
    [['report', 'trend', 'extra'], 'too many arguments'],
    [['report', 'service'], 'visit'],
    [['explain'], 'rule'],
    [['--no-such-option'], '--no-such-option'],
  ])('%j: 2, told on standard error, with nothing on standard output', async (args, named) => {
    const ran = await run(anywhere, args)
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain(named)
    expect(ran.err).toContain('--help')
    expect(ran.err).not.toContain('fault of the program')
  })

  it('a command that is nearly right is named', async () => {
    expect((await run(anywhere, ['chek'])).err).toContain('Did you mean check?')
  })

  it.each([[[]], [['report']]])('%j says what there is, and is not taken for done', async (args) => {
    const ran = await run(anywhere, args)
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain('Usage: doorsweep')
  })
})

describe('help', () => {
  it.each([
    ['--help'],
    ['-h'],
    ['help'],
    ['check', '--help'],
    ['help', 'check'],
    ['report', '--help'],
    ['report', 'trend', '--help'],
    ['report', 'help', 'service'],
    ['explain', '--help'],
    ['rules', '--help'],
    ['demo', '--help'],
  ])('%s %s %s is on standard output, and done', async (...args) => {
    const ran = await run(
      anywhere,
      args.filter((arg) => typeof arg === 'string'),
    )
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toMatch(/^Usage: doorsweep/)
  })

  it.each([['-V'], ['--version']])('%s prints the version', async (option) => {
    const ran = await run(anywhere, [option])
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toMatch(/^doorsweep [0-9]+\.[0-9]+\.[0-9]+\n$/)
  })

  it('explain prints the page of a rule; of none there is, the nearest name', async () => {
    const ran = await run(anywhere, ['explain', 'count-fell'])
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toMatch(/^count-fell \(warning\): /)
    const wrong = await run(anywhere, ['explain', 'count-fel'])
    expect([wrong.code, wrong.out, wrong.err]).toEqual([
      2,
      '',
      'doorsweep: There is no rule count-fel; did you mean count-fell?\n',
    ])
  })

  it('rules lists each rule once', async () => {
    const ran = await run(anywhere, ['rules'])
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(
      ran.out
        .trimEnd()
        .split('\n')
        .map((line) => line.split(' ')[0]),
    ).toEqual(allRules.map(({ id }) => id))
  })
})

describe('colour', () => {
  const folder = ledgerFolder(noLog)
  const isPainted = async (args: string[], env: Record<string, string>, isTTY: boolean) => {
    const ran = await run(folder, ['check', '--as-of', '2026-03-20', ...args], env, isTTY)
    return ran.out.includes('\u001b[')
  }

  it.each([
    ['on a terminal', [], {}, true, true],
    ['in a pipe', [], {}, false, false],
    ['on a dumb terminal', [], { TERM: 'dumb' }, true, false],
    ['NO_COLOR on a terminal', [], { NO_COLOR: '1' }, true, false],
    ['NO_COLOR that is empty, which is as if it were not set', [], { NO_COLOR: '' }, true, true],
    ['FORCE_COLOR in a pipe', [], { FORCE_COLOR: '1' }, false, true],
    ['FORCE_COLOR=0 on a terminal', [], { FORCE_COLOR: '0' }, true, false],
    ['both, of which NO_COLOR wins', [], { NO_COLOR: '1', FORCE_COLOR: '1' }, false, false],
    ['--color in a pipe', ['--color'], {}, false, true],
    ['--color beats NO_COLOR', ['--color'], { NO_COLOR: '1' }, false, true],
    ['--no-color on a terminal', ['--no-color'], {}, true, false],
    ['--no-color beats FORCE_COLOR', ['--no-color'], { FORCE_COLOR: '1' }, true, false],
  ])('%s', async (_, args, env, isTTY, painted) => {
    expect(await isPainted(args, env, isTTY)).toBe(painted)
  })

  it('is never in JSON', async () => {
    expect(await isPainted(['--format', 'json', '--color'], {}, true)).toBe(false)
  })
})

describe('a fault of the program', () => {
  it('is told as one, with its stack, and is 2', async () => {
    const written: string[] = []
    const { main } = await import('../../src/cli/main.js')
    const code = await main(['rules'], {
      stdout: {
        write: () => {
          throw new Error('the disk is on fire')
        },
      },
      stderr: { write: (text) => written.push(text) },
      env: {},
      cwd: () => anywhere,
    })
    expect(code).toBe(2)
    expect(written.join('')).toMatch(/fault of the program, not of your records[\s\S]*the disk is on fire/)
  })

  it('is not a reader that went away', async () => {
    const written: string[] = []
    const { main } = await import('../../src/cli/main.js')
    const code = await main(['rules'], {
      stdout: {
        write: () => {
          throw Object.assign(new Error('write EPIPE'), { code: 'EPIPE' })
        },
      },
      stderr: { write: (text) => written.push(text) },
      env: {},
      cwd: () => anywhere,
    })
    expect([code, written]).toEqual([0, []])
  })
})
