import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { run } from './run-doorsweep.js'
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
  '', // F2 clear
  's other earwig live 2',
  '', // pantry
  '', // F3
  'c boxes on the floor',
  'harborage kitchen 2026-03-20',
  '', // hall
  '', // room 1
  'F4 odorous-house-ant 2',
  '', // room 2
  '', // office
  'no locked', // cupboard
  '06:45',
]

describe('a visit whose process is killed', () => {
  it('at every prompt in turn goes on each time and loses nothing that was answered', async () => {
    const folder = cleanLedger()
    for (const [at, line] of answers.entries()) {
      const talk = new Talk(folder)
      const first = await talk.prompt()
      if (at > 0) {
        expect(first).toContain(`${at} answer`)
        await talk.answer('')
      }
      await talk.answer(line)
      await talk.kill('SIGKILL')
      expect(visits(folder)).not.toContain(written)
    }
    const talk = new Talk(folder)
    await talk.prompt()
    const shown = await talk.answer('')
    expect(shown).toContain('Write it?')
    await talk.kill('SIGKILL')
    const again = new Talk(folder)
    await again.prompt()
    await again.answer('')
    expect(await again.last('')).toBe(0)
    expect(again.out).toBe(`sites/fernhollow/visits/${written}\n`)
    expect(readFileSync(join(folder, again.out.trim()), 'utf8')).toBe(`purpose: routine
by: sorrel
time: 06:00 to 06:45
site-manager: moss
complaint-log: read
inspected: [kitchen, pantry, hall, room-1, room-2, office]
no-entry: {cupboard: locked}
readings:
  none: [F2, F3]
  F1: {german-cockroach: {nymphs: 2, adults: 1}, renewed: yes}
  F4: {odorous-house-ant: 2}
found:
  pantry-earwig: {other: earwig, area: pantry, evidence: live, count: 2}
conditions:
  hall-boxes-floor: {new: boxes on the floor, area: hall, gives: harborage, owner: kitchen, by: 2026-03-20}
`)
    expect(existsSync(keptIn(folder))).toBe(false)
    const check = await run(folder, ['check', '--as-of', today])
    expect([check.code, check.out]).toEqual([0, expect.stringContaining('no problems')])
  }, 240_000)

  it('by a signal, or at the end of its input, says that all is kept', async () => {
    const folder = cleanLedger()
    for (const [signal, code] of [
      ['SIGTERM', 130],
      ['SIGHUP', 130],
      ['SIGINT', 130],
      [undefined, 2],
    ] as const) {
      const talk = new Talk(folder, '--by', 'sorrel')
      if ((await talk.prompt()).includes('Go on with it')) await talk.answer('')
      else await talk.answer('06:00')
      const ended = await (signal === undefined ? talk.end() : talk.kill(signal))
      expect([ended, talk.out]).toEqual([code, ''])
      expect(talk.err).toContain('is kept')
      expect(existsSync(join(folder, '.doorsweep/visit-fernhollow.lock'))).toBe(false)
    }
    expect(readFileSync(keptIn(folder), 'utf8').split('\n')).toHaveLength(3)
  }, 120_000)
})

describe('a visit that was written just before its process was killed', () => {
  it('is known again, and nothing is written twice', async () => {
    const folder = cleanLedger()
    const first = new Talk(folder, '--by', 'sorrel')
    await first.prompt()
    for (const line of ['06:00', 'trap-check', '', '', '', '', '06:40']) await first.answer(line)
    const kept = readFileSync(keptIn(folder))
    expect(await first.last('')).toBe(0)
    const record = readFileSync(join(folder, first.out.trim()), 'utf8')
    writeFileSync(keptIn(folder), kept)
    const second = new Talk(folder)
    await second.prompt()
    await second.answer('')
    expect(await second.last('')).toBe(0)
    expect([second.out, readFileSync(join(folder, second.out.trim()), 'utf8')]).toEqual([first.out, record])
    expect(existsSync(keptIn(folder))).toBe(false)
  }, 60_000)
})

describe('answers that cannot be kept', () => {
  it('are said to be so, before any is asked for', async () => {
    const folder = cleanLedger()
    writeFileSync(join(folder, '.doorsweep'), 'a file in place of the folder')
    const talk = new Talk(folder)
    expect(await talk.over).toBe(2)
    expect(talk.err).toContain('Answers cannot be kept in .doorsweep (EEXIST)')
  }, 60_000)

  it('because what is there is no unfinished visit, are left as they are', async () => {
    const folder = cleanLedger()
    mkdirSync(join(folder, '.doorsweep'))
    writeFileSync(keptIn(folder), 'something else\n')
    const talk = new Talk(folder)
    expect(await talk.over).toBe(2)
    expect(talk.err).toContain('cannot be read')
    expect(readFileSync(keptIn(folder), 'utf8')).toBe('something else\n')
  }, 60_000)
})

describe('an unfinished visit', () => {
  it('is named to whoever begins a second one, while the first is open', async () => {
    const folder = cleanLedger()
    const first = new Talk(folder, '--by', 'sorrel')
    await first.prompt()
    await first.answer('06:00')
    const second = new Talk(folder, '--by', 'moss')
    expect(await second.over).toBe(2)
    expect(second.err).toMatch(
      /unfinished visit to fernhollow: of 2026-02-11, by sorrel, begun 2026-02-11 \d\d:\d\d, 1 answer\. It is open in another window/,
    )
    await first.answer('')
    expect(await first.last('q')).toBe(2)
  }, 60_000)

  it('is discarded only by the whole word', async () => {
    const folder = cleanLedger()
    const first = new Talk(folder, '--by', 'sorrel')
    await first.prompt()
    await first.answer('06:00')
    await first.last('q')
    const second = new Talk(folder, '--by', 'moss')
    await second.prompt()
    expect(await second.answer('d')).toContain('discard, in full')
    expect(await second.answer('discard')).toContain('Began at')
    await second.kill('SIGTERM')
    expect(existsSync(keptIn(folder))).toBe(false)
  }, 60_000)
})

describe('what would be wrong', () => {
  it('is told after the area, and the record cannot be written while it is wrong in itself', async () => {
    const folder = cleanLedger()
    const talk = new Talk(folder, '--by', 'sorrel', '--on', '2026-02-10')
    expect(await talk.prompt()).toContain('From when to when')
    await talk.answer('06:00 to 06:40')
    expect(await talk.answer('trap')).toContain('Devices')
    await talk.answer('F1 9 note over')
    // A board is for insects: a count of mice on it is a note, told as soon as the kitchen is left.
    expect(await talk.answer('F2 house-mouse 1')).toContain('[reading-does-not-fit]')
    await talk.answer('')
    await talk.answer('')
    const shown = await talk.answer('')
    expect(shown).toContain('Write it?')
    // Bait cannot be put on a board: an error of the record itself.
    await talk.answer('go kitchen')
    await talk.answer('d')
    await talk.answer('F1 added 1 g gel-bait')
    const refused = await talk.answer('')
    expect(refused).toContain('It cannot be written so')
    expect(await talk.answer('')).toContain('takes the last answer back')
    await talk.answer('u')
    await talk.answer('u')
    expect(await talk.answer('F1 9')).toContain('Devices')
    expect(await talk.answer('')).toContain('Write it?')
    expect(await talk.last('')).toBe(0)
    expect(visits(folder)).toContain('2026-02-10-sorrel.yaml')
  }, 60_000)
})
