import { describe, expect, it } from 'vitest'
import { isPlainName, keysUnder } from '../../src/cli/complete/plain-lines.js'
import { typedIn } from '../../src/cli/complete/words.js'

describe('the words of a command line', () => {
  it.each([
    [['check', ''], ['check'], '', ''],
    [['report', 'trend', '--site', 'ot'], ['report', 'trend', '--site'], 'ot', ''],
    // zsh and fish leave them whole; bash has three words of it.
    [['due', '--site=ot'], ['due'], '--site=ot', ''],
    [['due', '--site', '=', 'ot'], ['due'], '--site=ot', '--site='],
    [['due', '--site', '='], ['due'], '--site=', '--site='],
    [['log', 'complaint', '--at', '09', ':', '1'], ['log', 'complaint', '--at'], '09:1', '09:'],
    [['log', 'complaint', '--at', '09', ':', '10', ''], ['log', 'complaint', '--at', '09:10'], '', ''],
    [['log', '"two words"', "'one"], ['log', 'two words'], 'one', ''],
    [[], [], '', ''],
  ])('%j', (words, before, current, brokenOff) => {
    expect(typedIn(words)).toEqual({ before, current, brokenOff })
  })
})

describe('keys read by lines', () => {
  const lines = `# a comment
name: Oak
areas:
  # another
  kitchen:
    name: Kitchen
    outline: [[0, 0], [1, 1]]

  "room-4": {kind: classroom}
  two words: {kind: other}
contract: {from: 2024-08-01}
`.split('\n')

  it('are those of the block, one below the other, that are plain names', () => {
    expect(keysUnder(lines)).toEqual(['name', 'areas', 'contract'])
    expect(keysUnder(lines, ['areas'])).toEqual(['kitchen', 'room-4'])
    expect(keysUnder(lines, ['areas', 'kitchen'])).toEqual(['name', 'outline'])
    // In braces behind its key.
    expect(keysUnder(lines, ['contract'])).toEqual(['from'])
    expect(keysUnder(lines, ['contract', 'from'])).toEqual([])
    expect(keysUnder(lines, ['nowhere', 'kitchen'])).toEqual([])
    expect(keysUnder([], ['areas'])).toEqual([])
  })

  it.each(['two words', '', '-rf', '.git', 'a\u001b[31mb', 'a\nb', '$(reboot)', 'a;b', 'é', ':files'])(
    '%j is no plain name',
    (name) => {
      expect(isPlainName(name)).toBe(false)
    },
  )
})
