import { execFileSync } from 'node:child_process'
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { main } from '../../src/cli/complete/main.js'
import { collecting, completed, exampleDistrict } from './completed.js'
import { ledgerFolder, newFolder } from './run-doorsweep.js'

describe('commands and options', () => {
  it('come from the program', async () => {
    expect(await completed(['re'])).toEqual(['report', 'review'])
    // In the order of the help.
    expect(await completed(['report', 'co'])).toEqual([
      'coverage',
      'conditions',
      'complaints',
      'contract',
      'compliance',
    ])
    expect(await completed(['help', 'rep'])).toEqual(['report'])
    expect(await completed(['help', 'report', 'tr'])).toEqual(['trend'])
    expect(await completed(['help', 'report', 'trend', ''])).toEqual([])
    expect(await completed(['no-such-command', ''])).toEqual([])
  })

  it('options are offered behind a dash, or where nothing else can stand, each until it was given', async () => {
    expect(await completed(['check', '--fo'])).toEqual(['--format'])
    expect(await completed(['check', '--format', 'json', '--fo'])).toEqual([])
    expect(await completed(['check', '--format=json', '--fo'])).toEqual([])
    expect(await completed(['due', ''])).toContain('--days')
    expect(await completed(['due', '--no-c'])).toEqual(['--no-color'])
    expect(await completed(['--ver'])).toEqual(['--version'])
    expect(await completed(['due', '--ver'])).toEqual([])
    // What was said of it is free text.
    expect(await completed(['log', 'complaint', ''])).toEqual([])
    // Behind `--` nothing is an option.
    expect(await completed(['check', '--', '--fo'])).toEqual([':files'])
    // Hidden: lines from standard input that is no terminal.
    expect(await completed(['visit', 'ottermere', '--ter'])).toEqual([])
  })

  it('words that an option chooses from', async () => {
    expect(await completed(['import', 'counts', 'x.csv', '--format', ''])).toEqual(['text', 'json'])
    expect(await completed(['import', 'counts', 'x.csv', '--format=j'])).toEqual(['--format=json'])
    expect(await completed(['import', 'counts', 'x.csv', '--format', '=', 'j'])).toEqual(['json'])
    expect(await completed(['completion', ''])).toEqual(['bash', 'zsh', 'fish'])
  })

  it('with what they mean, for shells that show it', async () => {
    const { here, out } = collecting(exampleDistrict)
    await main(['complete', '--described', '--', 'che'], here)
    expect(out()).toMatch(/^check\t[^\t\n]+\n$/)
  })
})

describe('names of the ledger', () => {
  // The example district: its folders and files, as they lie there.
  it.each([
    [
      ['report', 'trend', '--site', ''],
      ['ottermere', 'quarry-road', 'tamsin-hill'],
    ],
    [['clipboard', 'ot'], ['ottermere']],
    [['visit', 'ottermere', '--by', 'b'], ['bream']],
    [['visit', 'ottermere', '--entered-by', 're'], ['reyes']],
    [['mix', '--product', 'ro'], ['roach-gel']],
    [['mix', '--product', 'roach-gel', '--active', ''], ['inventamide']],
    [
      ['sds', 'roach'],
      ['roach-gel', ':files'],
    ],
    [['report', 'trend', '--pest', 'german'], ['german-cockroach']],
    [
      ['clipboard', 'ottermere', '--area', 'd'],
      ['dining-hall', 'dock', 'dry-store'],
    ],
    [['clipboard', 'ottermere', '--area', 'dock', 'ki'], ['kitchen']],
    [['precheck', '--site=ottermere', '--area', 'dock,ki'], ['dock,kitchen']],
    [['log', 'repair', 'x', '--site', 'ottermere', '--mends', 'sink'], ['sink-drip']],
    [
      ['report', 'service', 'ot'],
      ['ottermere/', ':files'],
    ],
    [
      ['report', 'service', 'ottermere/2026-03'],
      ['ottermere/2026-03-03-okafor', ':files'],
    ],
    [
      ['notice', 'ottermere/2026-01-1'],
      ['ottermere/2026-01-10-okafor', ':files'],
    ],
    [['notice', 'ottermere/2026-01-10-okafor', '--language', ''], ['es']],
    [['explain', 'count-f'], ['count-fell']],
    [['check', '--only', 'count-fell,dangling'], ['count-fell,dangling-reference']],
    [['new', 'si'], ['site']],
    [['identify', '--wings', 'four'], ['four-equal']],
    [['mix', '--method', 'crack'], ['crack-and-crevice']],
    [
      ['rulebook', 'show', 'us-f'],
      ['us-federal', ':files'],
    ],
    [['mix', '--area', ''], []],
    [['check', '--as-of', ''], []],
    [['check', '--ledger', ''], [':folders']],
    [['import', 'counts', 'x.csv', '--map', ''], [':files']],
  ])('%j', async (words, offered) => {
    expect(await completed(words)).toEqual(offered)
  })

  it('areas need a site: that of the option, of the argument, or of the folder one is in', async () => {
    const words = ['precheck', '--area', 'ki']
    expect(await completed(words)).toEqual([])
    expect(await completed(words, join(exampleDistrict, 'sites/ottermere/visits'))).toEqual(['kitchen'])
    expect(await completed(['precheck', '--site', '../people', '--area', ''])).toEqual([])
  })

  it('are those of --ledger, if it was given; outside a ledger there are none, but pests and rules are known', async () => {
    const away = newFolder()
    expect(await completed(['due', '--ledger', exampleDistrict, '--site', 'ot'], away)).toEqual(['ottermere'])
    expect(await completed(['due', '--site', ''], away)).toEqual([])
    expect(await completed(['report', 'trend', '--pest', 'house-m'], away)).toEqual(['house-mouse'])
    expect(await completed(['due', '--ledger', join(away, 'not-there'), '--site', ''], away)).toEqual([])
  })
})

describe('whatever lies in the folders', () => {
  it('names that a shell or a terminal might act on are left out', async () => {
    const folder = ledgerFolder()
    for (const name of ['two words', '$(reboot)', '-rf', 'a\u001b[31mb', 'a\nb', 'é', '`id`'])
      mkdirSync(join(folder, 'sites', name))
    writeFileSync(join(folder, 'people/two words.yaml'), 'name: x\n')
    expect(await completed(['due', '--site', ''], folder)).toEqual(['oak'])
    expect(await completed(['new', 'visit', '--by', ''], folder)).toEqual(['lind', 'marsh', 'okafor'])
  })

  it('nothing is offered, nothing is said, and nothing waits', async () => {
    const folder = ledgerFolder()
    const odd = join(folder, 'sites/odd')
    mkdirSync(join(odd, 'visits'), { recursive: true })
    // Nobody ever writes to it.
    execFileSync('mkfifo', [join(odd, 'site.yaml')])
    writeFileSync(
      join(odd, 'visits/2026-03-12-okafor.yaml'),
      Buffer.from([0xff, 0xfe, 0x00, 0x3a, 0x20, 0x0a]),
    )
    mkdirSync(join(odd, 'visits/2026-03-13-okafor.yaml'))
    expect(await completed(['clipboard', 'odd', '--area', ''], folder)).toEqual([])
    expect(await completed(['log', 'repair', 'x', '--site', 'odd', '--mends', ''], folder)).toEqual([])
  })

  it('a folder that is gone, or a reader that went away, is no fault', async () => {
    const gone = {
      ...collecting('/').here,
      cwd: () => {
        throw new Error('ENOENT: uv_cwd')
      },
    }
    expect(await main(['complete', '--', 'due', '--site', ''], gone)).toBe(0)
    const deaf = {
      write: () => {
        throw Object.assign(new Error('write EPIPE'), { code: 'EPIPE' })
      },
    }
    expect(await main(['complete', '--', 'ch'], { ...collecting('/').here, stdout: deaf })).toBe(0)
    expect(await main(['complete'], collecting('/').here)).toBe(0)
  })
})
