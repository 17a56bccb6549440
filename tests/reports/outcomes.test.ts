import { expect, it } from 'vitest'
import { daysInWords, listInWords, worstOf } from '../../src/reports/outcomes.js'
import { day } from '../ledger/small-site.js'

it('what is not shown in one part is not shown of the whole, and what cannot be checked is never shown', () => {
  expect(worstOf(['shown', 'not shown', 'cannot be checked'])).toBe('not shown')
  expect(worstOf(['shown', 'cannot be checked', 'not applicable'])).toBe('cannot be checked')
  expect(worstOf(['not applicable', 'shown'])).toBe('shown')
  expect(worstOf([])).toBe('not applicable')
})

it('a list is given whole up to four, and counted beyond that', () => {
  expect(listInWords([], 'files')).toBe('')
  expect(listInWords(['a'], 'files')).toBe('a')
  expect(listInWords(['a', 'b'], 'files')).toBe('a and b')
  expect(listInWords(['a', 'b', 'c', 'd'], 'files')).toBe('a, b, c and d')
  expect(listInWords(['a', 'b', 'c', 'd', 'e'], 'files')).toBe('a, b, c and 2 more files')
})

it('days are in order, each once', () => {
  expect(daysInWords([day('2026-03-14'), day('2026-03-12'), day('2026-03-14')])).toBe(
    '2026-03-12 and 2026-03-14',
  )
})
