import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { newFolder, run } from './run-doorsweep.js'
import { cleanLedger, today } from './visit-talk.js'

const env = { DOORSWEEP_TODAY: today }
const visit = (folder: string, ...args: string[]) => run(folder, ['visit', ...args], env)
const visits = (folder: string) => readdirSync(join(folder, 'sites/fernhollow/visits'))

describe('visit is refused before anything is asked', () => {
  it('for names that nobody bears', async () => {
    const folder = cleanLedger()
    expect((await visit(folder, 'fernholow')).err).toContain('did you mean fernhollow')
    expect((await visit(folder, 'fernhollow', '--by', 'sorel')).err).toContain('did you mean sorrel')
    expect((await visit(folder, 'fernhollow', '--entered-by', 'nobody')).err).toContain('new person nobody')
  })

  it('for a day that is none or still to come', async () => {
    const folder = cleanLedger()
    const ran = await visit(folder, 'fernhollow', '--on', '2026-02-12')
    expect([ran.code, ran.err]).toEqual([2, expect.stringContaining('still to come')])
    expect((await visit(folder, 'fernhollow', '--on', '2026-02-30')).err).toContain('year-month-day')
    expect((await visit(folder, 'fernhollow', '--on-paper', '2026-03-01')).err).toContain('still to come')
  })

  it('for a site that cannot be read', async () => {
    const folder = cleanLedger()
    writeFileSync(join(folder, 'sites/fernhollow/visits/2026-02-01-moss.yaml'), 'purpose: [\n')
    const ran = await visit(folder, 'fernhollow', '--blank')
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain('fernhollow cannot be read')
    expect(ran.err).toContain('2026-02-01-moss.yaml')
  })

  it('where nobody can answer, and says how to do it from a file', async () => {
    const folder = cleanLedger()
    const ran = await visit(folder, 'fernhollow')
    expect(ran.code).toBe(2)
    expect(ran.err).toContain('doorsweep visit fernhollow --blank > visit.yaml')
    expect(ran.err).toContain('doorsweep visit fernhollow --file visit.yaml')
    expect(existsSync(join(folder, '.doorsweep'))).toBe(false)
  })
})

/** Each blank of the printed record with what was seen. */
function filled(text: string): string {
  const say: Readonly<Record<string, string>> = {
    purpose: 'routine',
    by: 'sorrel',
    time: '06:00 to 06:40',
    'site-manager': 'moss',
    'complaint-log': 'read',
    inspected: '[kitchen, pantry, hall, room-1, room-2, office, cupboard]',
    none: '[F1, F2, F3, F5]',
    F4: '{odorous-house-ant: 2}',
  }
  return text
    .split('\n')
    .flatMap((line) => {
      const key = /^ *([A-Za-z0-9-]+): FILL IN/.exec(line)?.[1]
      if (key === undefined) return [line]
      return say[key] === undefined ? [] : [line.replace('FILL IN', say[key])]
    })
    .join('\n')
}

describe('visit from a file', () => {
  it('prints everything due as a blank, refuses what is left blank, and writes what was filled in', async () => {
    const folder = cleanLedger()
    const blank = await visit(folder, 'fernhollow', '--blank')
    expect(blank.code).toBe(0)
    expect(blank.out).toContain('  none: FILL IN # looked at, nothing there: [F1, F2, F3, F4, F5]')
    const file = join(newFolder(), 'visit.yaml')
    writeFileSync(file, blank.out)
    const refused = await visit(folder, 'fernhollow', '--file', file)
    expect([refused.code, refused.out]).toEqual([2, ''])
    expect(refused.err).toContain('still has blanks, on lines 4, 5, 6')
    const text = filled(blank.out)
    writeFileSync(file, text)
    const ran = await visit(folder, 'fernhollow', '--file', file)
    expect([ran.code, ran.out]).toEqual([0, `sites/fernhollow/visits/${today}-sorrel.yaml\n`])
    expect(readFileSync(join(folder, ran.out.trim()), 'utf8')).toBe(text)
    expect((await run(folder, ['check', '--as-of', today])).code).toBe(0)
    writeFileSync(file, text.replace('06:40', '06:50'))
    const second = await visit(folder, 'fernhollow', '--file', file)
    expect([second.code, second.err]).toEqual([2, expect.stringContaining('Add --word')])
  })

  it('writes nothing where a name in it is unknown, nobody made it, or it is no record', async () => {
    const folder = cleanLedger()
    const before = visits(folder)
    const file = join(newFolder(), 'visit.yaml')
    const attempt = async (text: string | Uint8Array) => {
      writeFileSync(file, text)
      const ran = await visit(folder, 'fernhollow', '--file', file)
      expect([ran.code, ran.out]).toEqual([2, ''])
      return ran.err
    }
    expect(await attempt('purpose: trap-check\nby: sorrel\nreadings: {none: [F9]}\n')).toContain('F9')
    expect(await attempt('purpose: trap-check\nreadings: {none: [F1]}\n')).toContain('who made the visit')
    expect(
      await attempt('purpose: trap-check\nby: sorrel\nreadings: {F1: {german-cockroach: some}}\n'),
    ).toContain('Nothing was written')
    expect(await attempt('')).toContain('no text in UTF-8')
    expect(await attempt(new Uint8Array([0xff, 0xfe, 0]))).toContain('no text in UTF-8')
    expect((await visit(folder, 'fernhollow', '--file', 'nowhere.yaml')).err).toContain('cannot be read')
    expect(visits(folder)).toEqual(before)
  })
})
