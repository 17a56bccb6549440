import fc from 'fast-check'
import stringWidth from 'string-width'
import { describe, expect, it } from 'vitest'
import { wrapped } from '../../src/output/wrapped.js'

describe('words on lines of a terminal', () => {
  it.each<[string, number | undefined, string, string[]]>([
    ['a line that fits', 20, '', ['a line that fits']],
    ['exactly ten', 11, '', ['exactly ten']],
    ['exactly ten', 10, '', ['exactly', 'ten']],
    ['in a pipe nothing is wrapped', undefined, '', ['in a pipe nothing is wrapped']],
    ['* set in below its mark', 12, '  ', ['* set in', '  below its', '  mark']],
    ['    set in itself', 12, '      ', ['    set in', '      itself']],
    ['short averyverylongword end', 8, '', ['short', 'averyverylongword', 'end']],
    // Each of these letters takes two columns.
    ['害虫 害虫 害虫', 9, '', ['害虫 害虫', '害虫']],
    ['', 10, '', ['']],
  ])('%j in %s columns', (text, width, hanging, lines) => {
    expect(wrapped(text, width, hanging)).toEqual(lines)
  })

  it('loses no word, and no line is too wide that has more than one', () => {
    const words = fc.array(fc.stringMatching(/^[a-z]{1,12}$/), { minLength: 1, maxLength: 30 })
    fc.assert(
      fc.property(words, fc.integer({ min: 4, max: 40 }), (list, width) => {
        const lines = wrapped(list.join(' '), width, '  ')
        expect(lines.join(' ').trim().split(/\s+/)).toEqual(list)
        for (const line of lines)
          if (line.trim().includes(' ')) expect(stringWidth(line)).toBeLessThanOrEqual(width)
      }),
      { seed: 20_260_312 },
    )
  })
})
