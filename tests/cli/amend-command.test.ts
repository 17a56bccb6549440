import { chmodSync, existsSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { workTree } from '../../src/files/work-tree.js'
import { dayOf } from '../../src/measure/calendar.js'
import { recordPathOf } from '../../src/records/paths.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { baitApplication } from '../../src/rules/example-applications.js'
import { amendState } from '../../src/writing/amend/amend-state.js'
import { writeAmended } from '../../src/writing/amend/write-amended.js'
import {
  findings,
  gitIn,
  history,
  quiet,
  scenario,
  visitFile,
  visitWith,
} from '../reports/history/git-scenario.js'
import { newFolder, run, writeFiles } from './run-doorsweep.js'

const today = { DOORSWEEP_TODAY: '2026-03-20' }
const word = ['--by', 'okafor', '--why', 'left later than first written']

function fresh(overlay = '') {
  const { ledger, folder } = scenario([], { checkedOut: true, overlay })
  const file = join(ledger, visitFile)
  return {
    ledger,
    folder,
    file,
    text: () => readFileSync(file, 'utf8'),
    amend: (...args: string[]) => run(ledger, ['amend', visitFile, ...args], today),
    commit: () => gitIn(folder, ['commit', '-q', '-a', '-m', 'Corrected'], '', '2026-03-20T12:00:00-07:00'),
  }
}

const entry = (keys: string, why = 'left later than first written') =>
  `corrections:\n  - {on: 2026-03-20, by: okafor, why: ${why}, keys: [${keys}]}\n`

describe('amend', () => {
  it('changes a key, says so in the record, and check and history accept it', async () => {
    const { amend, text, ledger, commit } = fresh()
    const ran = await amend('--set', 'time=06:10 to 06:55', ...word)
    expect(ran).toEqual({
      code: 0,
      out: `${visitFile}\n`,
      err: 'Corrected:\n  time: 06:10 to 06:50 → 06:10 to 06:55\nCommit it with git.\n',
    })
    expect(text()).toBe(visitWith('06:10 to 06:50', '06:10 to 06:55') + entry('time'))
    expect((await run(ledger, ['check', '--as-of', '2026-03-20'])).code).toBe(0)
    commit()
    const told = await history(ledger)
    expect(findings(told)).toEqual(quiet)
    expect(told.cells('corrections', 'on', 'by', 'why', 'keys', 'shows')).toEqual([
      ['2026-03-20', 'okafor', 'left later than first written', 'time', 'the change'],
    ])
  })

  it('changes and takes away several keys, from any folder, by the short name too', async () => {
    const { ledger, text } = fresh()
    const ran = await run(
      join(ledger, 'people'),
      [
        'amend',
        'oak/2026-03-05-okafor',
        '--remove',
        'inspected.1',
        '--set',
        'set.K1.note="by the sink, left"',
        '--set',
        'recommended=empty the bins',
        ...word,
      ],
      today,
    )
    expect([ran.code, ran.err]).toEqual([
      2,
      'doorsweep: --set set.K1.note: there is no key note in set.K1.\n',
    ])
    const again = await run(
      join(ledger, 'people'),
      [
        'amend',
        'oak/2026-03-05-okafor',
        '--remove',
        'inspected.1',
        '--set',
        'set.K1.marked-as="by the sink, left"',
        '--set',
        'recommended=empty the bins',
        '--on',
        '2026-03-18',
        ...word,
      ],
      today,
    )
    expect([again.code, again.out]).toEqual([0, `../${visitFile}\n`])
    expect(text()).toBe(
      visitWith('[kitchen, room-1]', '[kitchen]').replace(
        'within-reach: no}',
        'within-reach: no, marked-as: "by the sink, left"}',
      ) +
        'recommended: empty the bins\n' +
        entry('inspected, set.K1.marked-as, recommended').replace('2026-03-20', '2026-03-18'),
    )
  })

  it('states what was changed in an editor, and only what is not stated yet', async () => {
    const { amend, text, file } = fresh()
    writeFileSync(file, visitWith('06:50', '06:55'))
    expect((await amend(...word)).code).toBe(0)
    expect(text()).toBe(visitWith('06:50', '06:55') + entry('time'))
    expect((await amend(...word)).err).toMatch(/says what the last commit says, or states what it changed/)
    writeFileSync(file, text().replace('complaint-log: read', 'complaint-log: not found'))
    const ran = await amend('--by', 'lind', '--why', 'not there')
    // What the change brings is told: a log that was not read is a problem of its own.
    expect([ran.code, ran.err]).toEqual([0, expect.stringContaining('complaint-log-not-read')])
    expect(text()).toContain('  - {on: 2026-03-20, by: lind, why: not there, keys: [complaint-log]}\n')
  })

  it('corrects once more what is corrected and not committed yet, and puts back what was there', async () => {
    const { amend, text } = fresh()
    await amend('--set', 'time=06:10 to 06:55', ...word)
    expect((await amend('--set', 'time=06:10 to 07:00', ...word)).code).toBe(0)
    expect(text()).toBe(
      visitWith('06:50', '07:00') + entry('time') + entry('time').replace('corrections:\n', ''),
    )
    expect((await amend('--set', 'time=06:10 to 06:50', '--by', 'lind', '--why', 'it was right')).code).toBe(
      0,
    )
    expect(text()).toContain('time: 06:10 to 06:50\n')
    expect(text()).toContain('by: lind, why: it was right, keys: [time]}')
  })

  it('alone tells how to correct a record, and writes nothing', async () => {
    const { amend, text, file } = fresh()
    const how = await amend()
    expect([how.code, how.err]).toEqual([0, ''])
    expect(how.out).toContain(`doorsweep amend ${visitFile} --by PERSON --why "REASON" --set KEY=VALUE`)
    expect(text()).toBe(visitWith())
    writeFileSync(file, visitWith('06:50', '06:55'))
    const changed = await amend()
    expect([changed.code, changed.out]).toEqual([
      0,
      expect.stringContaining('  time: 06:10 to 06:50 → 06:10 to 06:55\n'),
    ])
    expect(text()).toBe(visitWith('06:50', '06:55'))
  })

  it('corrects an event of the district itself', async () => {
    const file = 'education/2026-03-06-marsh.yaml'
    const { ledger } = fresh(`=== ${file}\nby: marsh\nkind: talk\ntopic: Traps\naudience: custodial\n`)
    const ran = await run(ledger, ['amend', file, '--set', 'topic=Traps and doors', ...word], today)
    expect([ran.code, ran.out]).toEqual([0, `${file}\n`])
    expect(readFileSync(join(ledger, file), 'utf8')).toContain('topic: Traps and doors\n')
    const wrong = await run(ledger, ['amend', file, '--set', 'audience=nobody', ...word], today)
    expect([wrong.code, wrong.out, wrong.err]).toEqual([
      2,
      '',
      expect.stringContaining('Nothing was written.'),
    ])
  })

  it('judges an application that is still to come, too', async () => {
    const file = 'sites/oak/applications/2026-03-25-okafor.yaml'
    const { ledger } = fresh(baitApplication('2026-03-25', 'status: planned'))
    const wrong = await run(
      ledger,
      ['amend', file, '--set', 'method=by-hand', '--by', 'okafor', '--why', 'x'],
      today,
    )
    expect(wrong.err).toMatch(/Nothing was written/)
    expect(readFileSync(join(ledger, file), 'utf8')).not.toContain('by-hand')
    const right = await run(
      ledger,
      ['amend', file, '--set', 'method=void', '--by', 'okafor', '--why', 'x'],
      today,
    )
    expect([right.code, right.out]).toEqual([0, `${file}\n`])
  })

  it('takes a number for text where the record wants text', async () => {
    const file = 'sites/oak/repairs/2026-03-06-lind.yaml'
    const { ledger } = fresh(`=== ${file}\nby: lind\nowner: maintenance\narea: kitchen\ndone: new trap\n`)
    const ran = await run(ledger, ['amend', file, '--set', 'order=4711', ...word], today)
    expect([ran.code, ran.err]).toEqual([0, expect.stringContaining('order: now 4711')])
    expect(readFileSync(join(ledger, file), 'utf8')).toContain('order: "4711"\n')
  })
})

describe('amend refuses, and writes nothing', () => {
  const { amend, text, ledger } = fresh()
  const refused = async (args: readonly string[]) => {
    const ran = await amend(...args)
    expect([ran.code, ran.out, text()]).toEqual([2, '', visitWith()])
    return ran.err
  }

  it.each<[string, readonly string[], string | RegExp]>([
    [
      'no person',
      ['--why', 'x', '--set', 'time=06:10 to 06:55'],
      'Who corrects it? Add --by and the id of a person.',
    ],
    [
      'an unknown person',
      ['--by', 'okafo', '--why', 'x', '--set', 'time=06:10 to 06:55'],
      'There is no person okafo; did you mean okafor?',
    ],
    ['no reason', ['--by', 'okafor', '--set', 'time=06:10 to 06:55'], /^doorsweep: Why is it corrected\?/],
    [
      'an empty reason',
      ['--by', 'okafor', '--why', '  ', '--set', 'time=06:10 to 06:55'],
      /^doorsweep: Why is it corrected\?/,
    ],
    [
      'a key that no visit has',
      [...word, '--set', 'tme=06:10 to 06:55'],
      '--set tme: there is no key tme in a visit; did you mean time?',
    ],
    [
      'a key that is not there',
      [...word, '--remove', 'recommended'],
      '--remove recommended: the record has no recommended.',
    ],
    [
      'a device that is not there',
      [...word, '--remove', 'set.K2'],
      '--remove set.K2: set has no K2; did you mean set.K1?',
    ],
    [
      'a key below a value',
      [...word, '--set', 'time.start=06:10'],
      '--set time.start: there is no key start in time.',
    ],
    [
      'an item that is not there',
      [...word, '--set', 'inspected.7=kitchen'],
      /^doorsweep: --set inspected.7: inspected is a list of 2, counted from 0/,
    ],
    ['a key without a name', [...word, '--set', 'set..K1=x'], /write the key with dots between its parts/],
    [
      'no value',
      [...word, '--set', 'time='],
      '--set time=: there is no value. To take the key away: --remove time.',
    ],
    ['no equals sign', [...word, '--set', 'time'], /^doorsweep: --set time: write KEY=VALUE/],
    [
      'a value that is no YAML',
      [...word, '--set', 'inspected=[kitchen'],
      '--set inspected=[kitchen: [kitchen is no value that YAML can read.',
    ],
    [
      'the corrections themselves',
      [...word, '--set', 'corrections=[]'],
      '--set corrections: corrections are added by this command, and never changed.',
    ],
    ['what it says already', [...word, '--set', 'time=06:10 to 06:50'], /^doorsweep: Nothing would change/],
    [
      'a day to come',
      [...word, '--on', '2026-03-21', '--set', 'time=06:10 to 06:55'],
      '--on 2026-03-21: that day is still to come.',
    ],
    [
      'a day before the event',
      [...word, '--on', '2026-03-04', '--set', 'time=06:10 to 06:55'],
      'The correction would be of 2026-03-04, before the event itself of 2026-03-05.',
    ],
    [
      'no day',
      [...word, '--on', 'today', '--set', 'time=06:10 to 06:55'],
      /^doorsweep: --on today: write a day/,
    ],
    ['nothing to state', word, /there is nothing to correct/],
  ])('%s', async (_, args, says) => {
    const err = await refused(args)
    if (typeof says === 'string') expect(err).toBe(`doorsweep: ${says}\n`)
    else expect(err).toMatch(says)
  })

  it.each([
    ['a value of the wrong shape', 'time=early', /time.*\n[\s\S]*Nothing was written\./],
    ['a word that is none of those there are', 'purpose=rutine', /Nothing was written\./],
    [
      'an area that the site does not have',
      'inspected=[kitchen, attic]',
      /dangling-reference[\s\S]*Nothing was written\./,
    ],
  ])('%s', async (_, set, says) => {
    expect(await refused([...word, '--set', set])).toMatch(says)
  })

  it.each([
    ['sites/oak/visits/2026-03-06-okafor.yaml', 'sites/oak/visits/2026-03-06-okafor.yaml does not exist.'],
    ['oak/2026-03-05-okafo', 'oak/2026-03-05-okafo does not exist. Did you mean oak/2026-03-05-okafor?'],
    ['people/okafor.yaml', /^doorsweep: people\/okafor.yaml is a reference file.*dated spans.*`from:`/],
    ['district.yaml', /is a reference file/],
    [
      'products/bait-a/label.txt',
      'products/bait-a/label.txt is no record of the ledger, so there is nothing in it to correct.',
    ],
    ['/etc/hostname', /^doorsweep: \/etc\/hostname does not exist/],
    ['sites/oak/visits', /is no record of the ledger|does not exist/],
  ])('the record %s', async (record, says) => {
    const ran = await run(ledger, ['amend', record, ...word, '--set', 'time=06:10 to 06:55'], today)
    expect([ran.code, ran.out]).toEqual([2, ''])
    if (typeof says === 'string') expect(ran.err.startsWith(`doorsweep: ${says}`)).toBe(true)
    else expect(ran.err).toMatch(says)
  })
})

describe('amend at an odd file', () => {
  const set = ['--set', 'time=06:10 to 06:55', ...word]

  it('that is not committed, or lies in no repository', async () => {
    const { ledger } = fresh()
    const other = 'sites/oak/visits/2026-03-06-okafor.yaml'
    writeFileSync(join(ledger, other), visitWith())
    const ran = await run(ledger, ['amend', other, ...set], today)
    expect([ran.code, ran.err]).toEqual([
      2,
      expect.stringMatching(/is not committed\. Edit it and commit it/),
    ])
    const folder = newFolder()
    writeFiles(folder, ledgerWith(''))
    const outside = await run(folder, ['amend', visitFile, ...set], today)
    expect([outside.code, outside.err]).toEqual([2, expect.stringMatching(/is in no git checkout/)])
    gitIn(folder, ['init', '-q'])
    expect((await run(folder, ['amend', visitFile, ...set], today)).err).toMatch(/there is no commit yet/)
  })

  it('that is read-only', async () => {
    const { amend, text, file } = fresh()
    chmodSync(file, 0o444)
    const ran = await amend(...set)
    expect([ran.code, ran.out, ran.err]).toEqual([
      2,
      '',
      `doorsweep: ${visitFile} is read-only; nothing was written.\n`,
    ])
    expect(text()).toBe(visitWith())
  })

  it('that changed on the disk since it was read', () => {
    const { ledger, file, text } = fresh()
    const record = recordPathOf(visitFile)
    if (record === null || 'stray' in record) throw new Error('the visit is a record')
    const source = workTree(ledger)
    const state = amendState(ledger, source, record)
    if ('refused' in state) throw new Error(state.refused)
    writeFileSync(file, `${visitWith()}recommended: empty the bins\n`)
    const asOf = dayOf('2026-03-20') ?? 0
    const written = writeAmended(ledger, source, state, visitWith('06:50', '06:55') + entry('time'), {
      asOf,
      asOfIsToday: true,
    })
    expect(written).toEqual({
      is: 'refused',
      why: { refused: 'failed', detail: expect.stringMatching(/^was changed on the disk in the meantime/) },
    })
    expect(text()).toBe(`${visitWith()}recommended: empty the bins\n`)
  })

  it('that is broken on the disk, as an editor left it, is not written as corrected', async () => {
    const { amend, file } = fresh()
    writeFileSync(file, visitWith('purpose: routine', 'purpose: rutine'))
    const ran = await amend(...word)
    expect([ran.code, ran.out, ran.err]).toEqual([2, '', expect.stringContaining('Nothing was written.')])
    writeFileSync(file, 'purpose: [')
    expect((await amend(...word)).err).toMatch(/cannot be read as a record as it lies on the disk/)
  })

  it('that is a link is not followed', async () => {
    const { amend, file } = fresh()
    const elsewhere = join(newFolder(), 'elsewhere.yaml')
    writeFileSync(elsewhere, visitWith())
    rmSync(file)
    symlinkSync(elsewhere, file)
    const ran = await amend(...set)
    expect([ran.code, ran.err]).toEqual([2, expect.stringMatching(/is a link; links are not followed/)])
    expect(readFileSync(elsewhere, 'utf8')).toBe(visitWith())
    expect(existsSync(file)).toBe(true)
  })
})
