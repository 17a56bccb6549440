import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { keptIn as readText } from '../../src/writing/visit/journal.js'
import { run } from './run-doorsweep.js'
import { Spoken } from './visit-spoken.js'
import { cleanLedger, Talk, today } from './visit-talk.js'

const visits = (folder: string) => readdirSync(join(folder, 'sites/fernhollow/visits'))
const written = `${today}-sorrel.yaml`
const keptIn = (folder: string) => join(folder, '.doorsweep/visit-fernhollow.jsonl')

/** A whole routine visit, one answer to a question. */
const answers = [
  '', // by sorrel
  '06:00',
  '', // routine
  '', // moss
  '', // log read
  '', // kitchen
  'F1 2n 1a renewed',
  'F2 moved pantry', // asks how it stands there
  'marked',
  '', // F2 clear
  's other earwig live 2',
  '', // pantry
  'set',
  'snap',
  '', // F6
  '', // that is printed on it
  '', // not said how it stands
  '', // F3
  'c boxes on the floor',
  'harborage kitchen 2026-03-20',
  '', // hall
  '', // room 1
  'plant fern-1',
  'removed fungus gnats',
  'F4 odorous-house-ant 2 picked up',
  '', // room 2
  '', // office
  'no locked', // cupboard
  '06:45',
]

/** The record that they make. */
const record = `purpose: routine
by: sorrel
time: 06:00 to 06:45
site-manager: moss
complaint-log: read
inspected: [kitchen, pantry, hall, room-1, room-2, office]
no-entry: {cupboard: locked}
set:
  F6: {kind: snap-trap, area: pantry}
moved:
  F2: {area: pantry, marked: yes}
picked-up: [F4]
readings:
  none: [F2, F3]
  F1: {german-cockroach: {nymphs: 2, adults: 1}, renewed: yes}
  F4: {odorous-house-ant: 2}
found:
  pantry-earwig: {other: earwig, area: pantry, evidence: live, count: 2}
conditions:
  hall-boxes-floor: {new: boxes on the floor, area: hall, gives: harborage, owner: kitchen, by: 2026-03-20}
plants:
  fern-1: {area: room-1, removed: fungus gnats}
`

describe('a visit that is cut off', () => {
  it('at every prompt in turn goes on each time and loses nothing that was answered', async () => {
    const folder = cleanLedger()
    for (const [at, line] of answers.entries()) {
      const spoken = new Spoken(folder)
      if (at > 0) {
        expect(await spoken.prompt()).toContain(`${at} answer`)
        await spoken.answer('')
      }
      await spoken.answer(line)
      // Left as it stands: nothing of it runs again.
      expect(visits(folder)).not.toContain(written)
    }
    const beforeWriting = new Spoken(folder)
    expect(await beforeWriting.answer('')).toContain('Anything else?')
    const again = new Spoken(folder)
    await again.answer('')
    expect((await again.last('')).code).toBe(0)
    expect(again.out).toBe(`sites/fernhollow/visits/${written}\n`)
    expect(readFileSync(join(folder, again.out.trim()), 'utf8')).toBe(record)
    expect(existsSync(keptIn(folder))).toBe(false)
    const check = await run(folder, ['check', '--as-of', today, '--fail-on', 'error'])
    expect([check.code, check.err]).toEqual([0, ''])
  })

  it('by Ctrl-C at every prompt in turn keeps all that was answered, and says so', async () => {
    const folder = cleanLedger()
    for (const [at, line] of answers.entries()) {
      const spoken = new Spoken(folder)
      if (at > 0) await spoken.answer('')
      await spoken.answer(line)
      const { code, said } = await spoken.last({ is: 'interrupted' })
      expect([code, spoken.out]).toEqual([130, ''])
      expect(said).toContain('is kept')
      expect(existsSync(join(folder, '.doorsweep/visit-fernhollow.lock'))).toBe(false)
    }
    const texts = readFileSync(keptIn(folder), 'utf8').split('\n').slice(1, -1)
    expect(texts.map((text) => JSON.parse(text).text)).toEqual(answers)
  })

  it('in the middle of what it keeps loses at most the answer that was not yet confirmed', async () => {
    const folder = cleanLedger()
    const spoken = new Spoken(folder)
    for (const line of answers) await spoken.answer(line)
    const whole = readFileSync(keptIn(folder), 'utf8')
    const lines = whole.split('\n').slice(0, -1)
    let end = 0
    // Cut off after each line, before its end, and at two places of the next one.
    for (const [at, line] of lines.entries()) {
      end += line.length + 1
      const confirmed = answers.slice(0, at)
      for (const [cut, kept] of [
        [end - 1, confirmed.slice(0, -1)],
        [end, confirmed],
        [end + 1, confirmed],
        [end + 9, confirmed],
      ] as const) {
        const read = readText(whole.slice(0, cut))
        if (at === 0 && cut < end) expect(read).toEqual({ is: 'none' })
        else expect(read.is === 'kept' && read.answers.map(({ text }) => text)).toEqual(kept)
      }
    }
    expect(lines).toHaveLength(answers.length + 1)
  })
})

describe('a visit whose process is killed', () => {
  it('at the first prompt, amid the devices and before it is written, goes on each time', async () => {
    const folder = cleanLedger()
    let at = 0
    // Killed with nothing answered, after the seventh answer, and after the last.
    for (const until of [0, 7, answers.length]) {
      const talk = new Talk(folder)
      const first = await talk.prompt()
      if (at > 0) {
        expect(first).toContain(`${at} answer`)
        await talk.answer('')
      }
      for (; at < until; at++) await talk.answer(answers[at] ?? '')
      await talk.kill('SIGKILL')
      expect(visits(folder)).not.toContain(written)
    }
    const again = new Talk(folder)
    await again.prompt()
    expect(await again.answer('')).toContain('Anything else?')
    expect(await again.last('')).toBe(0)
    expect(readFileSync(join(folder, again.out.trim()), 'utf8')).toBe(record)
    expect(existsSync(keptIn(folder))).toBe(false)
  }, 60_000)

  it('by a signal, or at the end of its input, says that all is kept', async () => {
    const endings = [
      ['SIGTERM', 130],
      ['SIGHUP', 130],
      ['SIGINT', 130],
      [undefined, 2],
    ] as const
    await Promise.all(
      endings.map(async ([signal, code]) => {
        const folder = cleanLedger()
        const talk = new Talk(folder, '--by', 'sorrel')
        await talk.prompt()
        await talk.answer('06:00')
        // A line without its end was not finished, and is no answer.
        talk.child.stdin?.write('trap-ch')
        const ended = await (signal === undefined ? talk.end() : talk.kill(signal))
        expect([ended, talk.out]).toEqual([code, ''])
        expect(talk.err).toContain('is kept')
        expect(existsSync(join(folder, '.doorsweep/visit-fernhollow.lock'))).toBe(false)
        expect(readFileSync(keptIn(folder), 'utf8').split('\n').slice(1)).toEqual([
          '{"to":"start","text":"06:00"}',
          '',
        ])
      }),
    )
  }, 60_000)
})

describe('a visit that was written just before it was cut off', () => {
  it('is known again, and nothing is written twice', async () => {
    const folder = cleanLedger()
    const first = new Spoken(folder, { by: 'sorrel' })
    for (const line of ['06:00', 'trap-check', '', '', '', '', '06:40']) await first.answer(line)
    const kept = readFileSync(keptIn(folder))
    expect((await first.last('')).code).toBe(0)
    const text = readFileSync(join(folder, first.out.trim()), 'utf8')
    writeFileSync(keptIn(folder), kept)
    const second = new Spoken(folder)
    await second.answer('')
    expect((await second.last('')).code).toBe(0)
    expect([second.out, readFileSync(join(folder, second.out.trim()), 'utf8')]).toEqual([first.out, text])
    expect(existsSync(keptIn(folder))).toBe(false)
  })
})

describe('answers that cannot be kept', () => {
  it('are said to be so, before any is asked for', async () => {
    const folder = cleanLedger()
    writeFileSync(join(folder, '.doorsweep'), 'a file in place of the folder')
    await expect(new Spoken(folder).over).rejects.toThrow('Answers cannot be kept in .doorsweep (EEXIST)')
  })

  it('because what is there is no unfinished visit, are left as they are', async () => {
    const folder = cleanLedger()
    mkdirSync(join(folder, '.doorsweep'))
    writeFileSync(keptIn(folder), 'something else\n')
    await expect(new Spoken(folder).over).rejects.toThrow('cannot be read')
    expect(readFileSync(keptIn(folder), 'utf8')).toBe('something else\n')
  })
})

describe('an unfinished visit', () => {
  it('is named to whoever begins a second one, while the first is open', async () => {
    const folder = cleanLedger()
    const first = new Talk(folder, '--by', 'sorrel')
    await first.prompt()
    await first.answer('06:00')
    const kept = readFileSync(keptIn(folder))
    const second = new Talk(folder, '--by', 'moss')
    expect(await second.over).toBe(2)
    expect(second.err).toMatch(
      /unfinished visit to fernhollow: of 2026-02-11, by sorrel, begun 2026-02-11 \d\d:\d\d, 1 answer\. It is open in another window/,
    )
    // The second one neither took the first one's answers nor its place.
    expect(readFileSync(keptIn(folder))).toEqual(kept)
    await first.answer('')
    expect(await first.last('q')).toBe(2)
    expect(readFileSync(keptIn(folder), 'utf8').split('\n')).toHaveLength(4)
  }, 60_000)

  it('taken over elsewhere takes no more answers here, and those it had are kept', async () => {
    const folder = cleanLedger()
    const first = new Spoken(folder, { by: 'sorrel' })
    await first.answer('06:00')
    const lock = join(folder, '.doorsweep/visit-fernhollow.lock')
    const theirs = JSON.stringify({ process: 1, machine: 'the other one', begun: 'later' })
    writeFileSync(lock, theirs)
    await expect(first.answer('routine')).rejects.toThrow('Another window took this visit over')
    expect(readFileSync(lock, 'utf8')).toBe(theirs)
    expect(readFileSync(keptIn(folder), 'utf8').split('\n').slice(1)).toEqual([
      '{"to":"start","text":"06:00"}',
      '',
    ])
  })

  it('is discarded only by the whole word, and goes on as it was told whatever the command says', async () => {
    const folder = cleanLedger()
    const first = new Spoken(folder, { by: 'sorrel' })
    await first.answer('06:00')
    await first.last('q')
    const second = new Spoken(folder, { by: 'moss', on: '2026-02-10' })
    expect(await second.prompt()).toContain('The command says --by moss --on 2026-02-10')
    expect(await second.answer('d')).toContain('discard, in full')
    expect(await second.answer('discard')).toContain('Who types this?')
    expect((await second.last({ is: 'interrupted' })).code).toBe(130)
    expect(existsSync(keptIn(folder))).toBe(false)
  })
})

describe('what would be wrong', () => {
  it('is told after the area, and the record cannot be written while it is wrong in itself', async () => {
    const folder = cleanLedger()
    const spoken = new Spoken(folder, { by: 'sorrel', on: '2026-02-10' })
    expect(await spoken.answer('')).toContain('From when to when')
    await spoken.answer('06:00 to 06:40')
    expect(await spoken.answer('trap')).toContain('Devices')
    await spoken.answer('F1 9 note over')
    // A board is for insects: a count of mice on it is a note, told as soon as the kitchen is left.
    expect(await spoken.answer('F2 house-mouse 1')).toContain('[reading-does-not-fit]')
    await spoken.answer('')
    await spoken.answer('')
    expect(await spoken.answer('')).toContain('Anything else?')
    // Bait cannot be put on a board: an error of the record itself.
    await spoken.answer('go kitchen')
    await spoken.answer('d')
    await spoken.answer('F1 added 1 g gel-bait')
    expect(await spoken.answer('')).toContain('It cannot be written so')
    expect(await spoken.answer('')).toContain('It cannot be written so')
    await spoken.answer('u')
    await spoken.answer('u')
    expect(await spoken.answer('F1 9')).toContain('Devices')
    expect(await spoken.answer('')).toContain('Anything else?')
    expect((await spoken.last('')).code).toBe(0)
    expect(visits(folder)).toContain('2026-02-10-sorrel.yaml')
  })
})
