import { spawnSync } from 'node:child_process'
import type { Command } from 'commander'
import { describe, expect, it } from 'vitest'
import { manPage } from '../../src/cli/man/page.js'
import { asInHelp, bold, escaped, meaning, paragraph, prose, verbatim } from '../../src/cli/man/roff.js'
import { wholeProgram } from './completed.js'
import { newFolder, run } from './run-doorsweep.js'

const within = (command: Command): readonly Command[] => [command, ...command.commands.flatMap(within)]
/** The options that stand as terms of their own, as they are typed. */
const termsOf = (part: string) =>
  [...part.matchAll(/^\.TP\n(\\fB.*)$/gm)].flatMap(([, term = '']) =>
    term
      .replace(/\\f[BIR]/g, '')
      .replaceAll('\\-', '-')
      .split(/,? /),
  )
const ran = run(newFolder(), ['man'])

describe('text for roff', () => {
  it('is taken for nothing else', () => {
    expect(escaped('a\\b')).toBe('a\\eb')
    expect(escaped('--as-of')).toBe('\\-\\-as\\-of')
    expect(escaped('.TH')).toBe('\\&.TH')
    expect(escaped('\'x\' `y` "z" ^ ~')).toBe('\\(aqx\\(aq \\(gay\\(ga \\(dqz\\(dq \\(ha \\(ti')
    expect(escaped('é')).toBe('\\[u00E9]')
    expect(escaped('a\u001bb\nc')).toBe('a b c')
    expect(bold('.x')).toBe('\\fB.x\\fR')
  })

  it('is set in paragraphs, what is to be typed in bold', () => {
    expect(prose('.doorsweep holds `git log -1`.')).toBe('\\&.doorsweep holds \\fBgit log \\-1\\fR.')
    expect(paragraph('one')).toEqual(['.PP', 'one'])
    expect(meaning(bold('-x'), '.y')).toEqual(['.TP', '\\fB\\-x\\fR', '\\&.y'])
    expect(verbatim(['.a', '', "'b"])).toEqual([
      '.PP',
      '.RS 4',
      '.nf',
      '\\&.a',
      '\\&',
      '\\&\\(aqb',
      '.fi',
      '.RE',
    ])
  })

  it('of help keeps its examples as they are', () => {
    expect(asInHelp('\nExit codes: 0 written,\n2 not.\n\nExample:\n  a\n    b')).toEqual([
      '.PP',
      'Exit codes: 0 written, 2 not.',
      '.PP',
      'Example:',
      '.PP',
      '.RS 4',
      '.nf',
      '\\&a',
      '\\&  b',
      '.fi',
      '.RE',
    ])
  })
})

describe('the manual page', () => {
  it('is on standard output, and the same each time', async () => {
    const { code, out, err } = await ran
    expect([code, err]).toEqual([0, ''])
    expect(out).toBe(manPage(wholeProgram(), out.match(/doorsweep ([0-9.]+)"/)?.[1] ?? ''))
    expect(out).toMatch(/^\.TH DOORSWEEP 1 /)
  })

  it('has the sections that such a page has', async () => {
    const { out } = await ran
    expect([...out.matchAll(/^\.SH (.+)$/gm)].map(([, title]) => title)).toEqual([
      'NAME',
      'SYNOPSIS',
      'DESCRIPTION',
      'OPTIONS',
      'COMMANDS',
      'EXIT STATUS',
      'ENVIRONMENT',
      'FILES',
      'EXAMPLES',
      'SEE ALSO',
    ])
  })

  it('has every command, and under it every argument and option, but what is hidden', async () => {
    const { out } = await ran
    const parts = new Map(
      out
        .split(/^\.S[SH] /m)
        .map((part) => [part.split('\n')[0]?.replace(/^"doorsweep ([a-z ]*[a-z]).*$/, '$1') ?? '', part]),
    )
    for (const command of within(wholeProgram())) {
      const names: string[] = []
      for (let one: Command | null = command; one?.parent; one = one.parent) names.unshift(one.name())
      const part = parts.get(names.length === 0 ? 'OPTIONS' : names.join(' '))
      expect(part, names.join(' ')).toBeDefined()
      const terms = termsOf(part ?? '')
      for (const { long, hidden } of command.options)
        expect(terms.includes(long ?? ''), `${names.join(' ')} ${long}`).toBe(!hidden)
      for (const argument of command.registeredArguments)
        expect(part).toContain(`.TP\n\\fI${escaped(argument.name())}`)
      expect(part).toContain(names.length === 0 ? 'use colour' : `.PP\n${prose(command.description())}`)
    }
  })

  it('has no line that begins like a request and is none', async () => {
    const { out } = await ran
    const requests = out.split('\n').filter((line) => /^[.']/.test(line))
    const known = /^\.(?:TH|SH|SS|PP|TP|RS 4|RE|nf|fi|nh|ad l)(?: |$)/
    expect(requests.filter((line) => !known.test(line))).toEqual([])
    // Nothing but ASCII, and no bare hyphen within text.
    expect(out).toMatch(/^[\n\x20-\x7e]*$/)
    expect(out.replaceAll('\\-', '')).not.toContain('-')
  })
})

const hasGroff = spawnSync('groff', ['--version']).status === 0
if (!hasGroff) process.stderr.write('the manual page is not set: there is no groff here\n')

describe.skipIf(!hasGroff)('set by groff', () => {
  it('there is no warning, and options read as they are typed', async () => {
    const { out } = await ran
    const set = spawnSync('groff', ['-man', '-Tutf8', '-ww', '-P-cbou'], { input: out, encoding: 'utf8' })
    expect([set.status, set.stderr]).toEqual([0, ''])
    expect(set.stdout).toContain('--entered-by <person>')
    expect(set.stdout).toContain('doorsweep explain dangling-reference')
    // A mapping, indented as YAML has it.
    expect(set.stdout).toContain('date: {column: Date, format: MM/DD/YYYY}')
    expect(set.stdout).toContain('.doorsweep/')
  })
})
