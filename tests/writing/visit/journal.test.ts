import {
  appendFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import { workTree } from '../../../src/files/work-tree.js'
import { keptFile, keptIn, openJournal, readKept } from '../../../src/writing/visit/journal.js'
import { takeLock } from '../../../src/writing/visit/lock.js'
import { oakPlan, setUp } from './oak-plan.js'

const folders: string[] = []
const root = () => {
  const folder = mkdtempSync(join(tmpdir(), 'doorsweep-test-'))
  folders.push(folder)
  return folder
}
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true })
})

describe('what is kept of a visit', () => {
  it('is the plan and the answers that were not taken back', () => {
    const folder = root()
    const plan = oakPlan()
    const journal = openJournal(folder, plan, '2026-04-07 06:10')
    journal.add({ to: 'start', text: '06:10' })
    journal.add({ to: 'purpose', text: 'callback' })
    journal.undo()
    journal.add({ to: 'purpose', text: '' })
    journal.close()
    const kept = readKept(folder, 'oak')
    expect(kept).toEqual({
      is: 'kept',
      plan,
      begun: '2026-04-07 06:10',
      answers: [
        { to: 'start', text: '06:10' },
        { to: 'purpose', text: '' },
      ],
    })
  })

  it('leaves out a last line that was cut off, and goes on after it', () => {
    const folder = root()
    const plan = oakPlan()
    openJournal(folder, plan, 'then').add({ to: 'start', text: '06:10' })
    appendFileSync(keptFile(folder, 'oak'), '{"to":"purpose","te')
    const kept = readKept(folder, 'oak')
    expect(kept.is === 'kept' && kept.answers).toEqual([{ to: 'start', text: '06:10' }])
    openJournal(folder, plan, 'later').add({ to: 'purpose', text: 'routine' })
    const again = readKept(folder, 'oak')
    expect(again.is === 'kept' && [again.begun, again.answers.length]).toEqual(['then', 2])
  })

  it('is unreadable as a whole where a line in it is no answer', () => {
    expect(keptIn('')).toEqual({ is: 'none' })
    expect(keptIn('{"begun"')).toEqual({ is: 'none' })
    expect(keptIn('nonsense\n')).toMatchObject({ is: 'unreadable' })
    const folder = root()
    openJournal(folder, oakPlan(), 'then').add({ to: 'start', text: '06:10' })
    const text = readFileSync(keptFile(folder, 'oak'), 'utf8')
    expect(keptIn(`${text}{"to": 1}\n{"to":"end","text":""}\n`)).toEqual({
      is: 'unreadable',
      why: 'line 3 is no answer',
    })
  })

  it('by an earlier program, that knew of nothing that is away, goes on', () => {
    const folder = root()
    const { deviceNames: _names, ...before } = oakPlan()
    openJournal(folder, before, 'then').add({ to: 'start', text: '06:10' })
    expect(readKept(folder, 'oak')).toEqual({
      is: 'kept',
      plan: before,
      begun: 'then',
      answers: [{ to: 'start', text: '06:10' }],
    })
  })

  it('holds what is away, as the plan does', () => {
    const folder = root()
    const plan = oakPlan({
      '2026-03-02': setUp,
      '2026-03-12': 'picked-up: [K1, K3]\nplants: {fern-1: {area: store, removed: gnats, sprayed: yard}}\n',
    })
    expect(plan.away).toEqual([
      { id: 'K1', area: 'kitchen', since: '2026-03-12' },
      { id: 'K3', markedAs: '#17', area: 'kitchen', since: '2026-03-12' },
    ])
    expect(plan.plantsAway).toEqual([
      { name: 'fern-1', area: 'store', since: '2026-03-12', why: 'gnats', isWet: true },
    ])
    openJournal(folder, plan, 'then').add({ to: 'start', text: '06:10' })
    expect(readKept(folder, 'oak')).toMatchObject({ is: 'kept', plan })
  })

  it('lies where neither records nor git are looked for', () => {
    const folder = root()
    writeFileSync(join(folder, 'district.yaml'), 'format: 1\n')
    openJournal(folder, oakPlan(), 'then')
    expect(existsSync(keptFile(folder, 'oak'))).toBe(true)
    expect(
      workTree(folder)
        .list()
        .map(({ path }) => path),
    ).toEqual(['district.yaml'])
    expect(readFileSync(join(folder, '.doorsweep/.gitignore'), 'utf8')).toContain('\n*\n')
  })

  it('is never written through a link', () => {
    const folder = root()
    const elsewhere = root()
    symlinkSync(elsewhere, join(folder, '.doorsweep'))
    expect(() => openJournal(folder, oakPlan(), 'then')).toThrow('links are not followed')
    expect(existsSync(join(elsewhere, '.gitignore'))).toBe(false)
  })
})

describe('the lock of a visit', () => {
  const me = { process: 11, machine: 'here', begun: 'then' }
  const other = { process: 22, machine: 'here', begun: 'now' }

  it('is held by one, and free once that one lets go', () => {
    const folder = root()
    const mine = takeLock(folder, 'oak', me, () => true)
    expect(takeLock(folder, 'oak', other, () => true)).toMatchObject({ is: 'theirs', holder: me })
    expect(takeLock(folder, 'elm', other, () => true).is).toBe('mine')
    if (mine.is === 'mine') mine.release()
    expect(takeLock(folder, 'oak', other, () => true).is).toBe('mine')
  })

  it('is taken over from a process that is gone, which then knows that it lost it', () => {
    const folder = root()
    const mine = takeLock(folder, 'oak', me, () => true)
    const theirs = takeLock(folder, 'oak', other, (id) => id !== me.process)
    expect(theirs.is).toBe('mine')
    expect(mine.is === 'mine' && mine.holds()).toBe(false)
    if (mine.is === 'mine') mine.release()
    expect(theirs.is === 'mine' && theirs.holds()).toBe(true)
  })

  it('is not taken over from another machine, whose processes cannot be seen; nor left broken', () => {
    const folder = root()
    takeLock(folder, 'oak', { ...me, machine: 'there' }, () => true)
    expect(takeLock(folder, 'oak', other, () => false).is).toBe('theirs')
    mkdirSync(join(folder, '.doorsweep'), { recursive: true })
    writeFileSync(join(folder, '.doorsweep/visit-elm.lock'), 'half a li')
    expect(takeLock(folder, 'elm', other, () => true).is).toBe('mine')
  })
})
