import { expect, it } from 'vitest'
import { historyLine } from '../../src/reports/history-line.js'
import { day } from '../ledger/small-site.js'

const look = (date: string, count: number, trapNights = 10) => ({
  day: day(date),
  count,
  trapNights,
  files: [],
})

it('has one sign a month: none read, read with nothing, and the height against the highest month', () => {
  const line = historyLine(
    [
      look('2026-01-31', 8),
      // February was not read.
      look('2026-03-01', 0),
      look('2026-03-31', 0),
      // 2 + 2 in 20 nights: days of one month are added up.
      look('2026-04-05', 2),
      look('2026-04-06', 2),
      look('2026-05-01', 1, 1000),
      look('2026-06-01', 4, 5),
    ],
    day('2026-01-15'),
    day('2026-06-02'),
  )
  // Rates by night: 0.8, –, 0, 0.2, 0.001, 0.8. Above zero there are seven heights; a quarter of the highest is the
  // second of them (0.25 × 7 = 1.75), and however little is still above nothing.
  expect(line).toBe('█·▁▃▂█')
})

it('is level where nothing was caught, and does not divide by it', () => {
  expect(
    historyLine([look('2026-01-10', 0), look('2026-02-10', 0)], day('2026-01-01'), day('2026-02-28')),
  ).toBe('▁▁')
  expect(historyLine([], day('2026-01-01'), day('2026-02-28'))).toBe('··')
})
