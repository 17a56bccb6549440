import { describe, expect, it } from 'vitest'
import { oak, oakPage, pageOf, spray, waiting } from './application-pages.js'

describe('the moment before which nobody is asked back', () => {
  const waitOf = (application: string, wait: string, date: string, asOf = '2026-12-01') =>
    pageOf(oak(application, waiting(wait), date), `oak/${date}-okafor`, { asOf }).says['staying-out']
  const from = (hours: string) => spray.replace('15:40 to 16:05', hours).replace(/dry:[\s\S]*$/, '')

  it('counts hours that pass when the clock is set forward', () => {
    // 8 March 2026, 02:00 becomes 03:00. 23:00 on the 7th is 07:00 UTC; 7 hours later, 14:00 UTC, is 07:00 summer time.
    expect(waitOf(from('22:30 to 23:00'), '7 h', '2026-03-07')?.['Asked: not back before']).toBe(
      'Sunday 2026-03-08, 07:00.',
    )
  })

  it('counts hours that pass when the clock is set back', () => {
    // 1 November 2026, 02:00 becomes 01:00. 23:00 on 31 October is 06:00 UTC; 13:00 UTC is 05:00 standard time.
    expect(waitOf(from('22:30 to 23:00'), '7 h', '2026-10-31')?.['Asked: not back before']).toBe(
      'Sunday 2026-11-01, 05:00.',
    )
  })

  it('takes the later of two moments where the clock showed the end twice', () => {
    // 01:30 on 1 November is 08:30 UTC or 09:30 UTC; two hours after the later one is 11:30 UTC, 03:30.
    expect(waitOf(from('00:30 to 01:30'), '2 h', '2026-11-01')?.['Asked: not back before']).toBe(
      'Sunday 2026-11-01, 03:30.',
    )
  })

  it('is that of the label where it is longer, in whole minutes never too early', () => {
    const label = `=== products/spray-a/product.yaml
name: Invented Spray A
kind: pesticide
labels: [{from: 2026-01-05, file: label.txt, says: {keep-out: 4 h, ventilate: 24.5 h, keep-out-until-dry: yes}}]
`
    const found = oakPage(spray, `${waiting('7 h')}${label}`)
    expect(found.says['staying-out']).toMatchObject({
      'What the label says':
        'As the register has it: stay out for 4 h; stay out until it is dry or settled; let in fresh air for 24.5 h first.',
      'Time to stay out': '24 h 30 min after the end (the label as entered)',
      // 16:05, a day and half an hour later.
      'Asked: not back before': 'Friday 2026-03-13, 16:35.',
    })
  })

  it('cannot be told without hours, or with hours that end before they begin', () => {
    expect(waitOf(from('15:40 to 16:05').replace(/time:.*\n/, ''), '7 h', '2026-03-12')).toMatchObject({
      'Time to stay out': '7 h after the end (Invented Pest Act, section 8)',
      'Asked: not back before': 'It cannot be told: the record does not say at what hours.',
    })
    expect(waitOf(from('16:05 to 15:40'), '7 h', '2026-03-12')?.['Asked: not back before']).toBe(
      'It cannot be told: by the record it ended before it began.',
    )
  })

  it('is held against the hour of opening, and an early one is told without blame', () => {
    const opened = (reopened: string, application = spray) =>
      oakPage(application.replace(/reopened:.*/, `reopened: ${reopened}`), waiting('7 h')).says[
        'staying-out'
      ]?.['Opened again']
    // 7 hours after 16:05 is 23:05.
    expect(opened('{at: 23:04, by: lind}')).toBe(
      'Thursday 2026-03-12, 23:04. By the record, the time to stay out was not over then.',
    )
    expect(opened('{at: 23:05, by: lind}')).toBe('Thursday 2026-03-12, 23:05')
    expect(opened('{on: 2026-03-13, at: 06:30, by: lind}')).toBe('Friday 2026-03-13, 06:30')
    expect(opened('{at: 20:00, by: lind}', spray.replace(/time:.*\n/, ''))).toBe(
      'Thursday 2026-03-12, 20:00. The record does not show whether the time to stay out was over.',
    )
  })

  it('an opening after the as-of day is not known yet', () => {
    const later = spray.replace(/reopened:.*/, 'reopened: {on: 2026-03-13, at: 06:30, by: lind}')
    expect(oakPage(later, '', { asOf: '2026-03-12' }).says['staying-out']?.['Opened again']).toBe(
      'The record does not show when people were let in again.',
    )
  })
})
