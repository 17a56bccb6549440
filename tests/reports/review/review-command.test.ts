import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { Command } from 'commander'
import { describe, expect, it } from 'vitest'
import { addReview } from '../../../src/cli/commands/review.js'
import type { Runner } from '../../../src/cli/runner.js'
import { UsageError } from '../../../src/cli/usage-error.js'
import { plainPainter } from '../../../src/output/painter.js'
import { ledgerFolder, newFolder, writeFiles } from '../../cli/run-doorsweep.js'

const folder = new URL('../../../examples/district', import.meta.url).pathname

interface Ran {
  readonly code: number
  readonly out: string
  readonly err: string
}

/** Runs the command alone, as the program runs it. */
async function review(cwd: string, ...args: string[]): Promise<Ran> {
  const written = { out: '', err: '' }
  let code: number = 0
  const run: Runner =
    (work) =>
    async (...given) => {
      code = await work(
        {
          stdout: {
            write: (text: string) => {
              written.out += text
            },
          },
          stderr: {
            write: (text: string) => {
              written.err += text
            },
          },
          args: ['review', ...args],
          env: {},
          cwd: () => cwd,
          painter: plainPainter,
        },
        given,
      )
    }
  const program = new Command().exitOverride().configureOutput({
    writeErr: (text) => {
      written.err += text
    },
    writeOut: (text) => {
      written.out += text
    },
  })
  addReview(program, run)
  for (const command of program.commands) command.exitOverride().copyInheritedSettings(program)
  try {
    await program.parseAsync(['review', ...args], { from: 'user' })
  } catch (error) {
    code = 2
    written.err += error instanceof UsageError ? error.message : ''
  }
  return { code, ...written }
}

const asOf = ['--as-of', '2026-06-30']

describe('the command', () => {
  it.each([
    ['text', /^Review of the school year 2025-2026, Alder Fork School District\n/],
    ['markdown', /^# Review of the school year 2025-2026, Alder Fork School District\n/],
    ['json', /^\{\n {2}"format-version": 1,\n {2}"report": "review",\n/],
    ['html', /^<!doctype html>\n<html lang="en">\n/],
  ])('writes %s', async (format, begins) => {
    const { code, out, err } = await review(folder, '2025-2026', ...asOf, '--format', format)
    expect({ code, err }).toEqual({ code: 0, err: '' })
    expect(out).toMatch(begins)
  })

  it('writes the same bytes again', async () => {
    const one = await review(folder, '2025-2026', ...asOf, '--format', 'html')
    expect((await review(folder, '2025-2026', ...asOf, '--format', 'html')).out).toBe(one.out)
  })

  it('writes a file, whole, and over another only if asked to', async () => {
    const there = newFolder()
    const out = join(there, 'review.html')
    const args = ['2025-2026', '--ledger', folder, ...asOf, '--format', 'html']
    const page = (await review(there, ...args)).out
    const told = await review(there, ...args, '--out', 'review.html')
    expect(told).toEqual({ code: 0, out: '', err: 'review.html is written.\n' })
    expect(readFileSync(out, 'utf8')).toBe(page)
    writeFileSync(out, 'older')
    const refused = await review(there, ...args, '--out', 'review.html')
    expect(refused).toMatchObject({ code: 2, out: '' })
    expect(refused.err).toContain('--replace')
    expect(readFileSync(out, 'utf8')).toBe('older')
    expect((await review(there, ...args, '--out', 'review.html', '--replace')).code).toBe(0)
    expect(readFileSync(out, 'utf8')).toBe(page)
  })

  it.each([
    [['2025-2026', '--site', 'otermere'], 'did you mean ottermere'],
    [['2025-26'], 'is no year'],
    [['2025-2026', '--with', 'everything'], 'everything'],
    [['2025-2026', '--with', 'floor-plan'], 'name it with --site'],
    [['2025-2026', '--format', 'csv'], 'csv'],
    [['2025-2026', '--out', 'no\0thing'], '--out'],
    [[], "missing required argument 'year'"],
  ])('refuses %j', async (args, says) => {
    const { code, out, err } = await review(folder, ...args, ...asOf)
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toContain(says)
  })

  it('does not write into the records', async () => {
    const ledger = ledgerFolder()
    const record = 'district.yaml'
    const before = readFileSync(join(ledger, record), 'utf8')
    const { code, err } = await review(ledger, '2026', '--as-of', '2026-03-20', '--out', record)
    expect(code).toBe(2)
    expect(err).toContain('a record')
    expect(readFileSync(join(ledger, record), 'utf8')).toBe(before)
  })

  it('cannot write where there is a folder, or no right to', async () => {
    const ledger = ledgerFolder()
    const { code, err } = await review(ledger, '2026', '--as-of', '2026-03-20', '--out', 'sites')
    expect(code).toBe(2)
    expect(err).toContain('sites')
    expect(existsSync(join(ledger, 'sites'))).toBe(true)
  })

  it('exits with 2 where part could not be read, and still writes the page', async () => {
    const ledger = ledgerFolder()
    writeFiles(ledger, new Map([['sites/oak/visits/2026-03-19-okafor.yaml', 'purpose: [']]))
    const { code, out } = await review(ledger, '2026', '--as-of', '2026-03-20', '--format', 'html')
    expect(code).toBe(2)
    expect(out).toContain('could not be examined')
  })
})
