import { describe, expect, it } from 'vitest'
import { runCheck, standsOn } from '../../../src/check/run-check.js'
import { memorySource } from '../../../src/files/memory.js'
import { schoolCalendar } from '../../../src/writing/demo/school-calendar.js'
import { drawLedger } from './drawn-ledger.js'

const ledger = drawLedger({ sites: 5, years: 2, seed: 3 })
const { views, truth } = ledger
const calendar = schoolCalendar(truth.from, truth.until)

describe('a clean ledger', () => {
  it('has counts that never fall without a renewal, and devices read only while they stand', () => {
    expect(views.flatMap((view) => view.deviceAnomalies)).toEqual([])
  })

  it('has a check of every standing device on every routine visit', () => {
    for (const view of views) {
      for (const visit of view.routineVisits) {
        const standing = view.devices.filter(
          (device) =>
            device.out.some(
              (span) => span.from < visit.day && (span.until === undefined || visit.day <= span.until),
            ) && !(device.takenUp && device.takenUp.day < visit.day),
        )
        const unread = standing.filter(
          (device) => !device.checks.some((check) => check.moment.day === visit.day),
        )
        expect(unread.map((device) => `${view.id} ${device.id} ${visit.id}`)).toEqual([])
        expect(visit.data.inspected?.length).toBe(view.areas.size)
      }
    }
  })

  it('has a routine visit in every month of school', () => {
    for (const view of views) {
      const months = new Set(view.routineVisits.map((visit) => visit.id.slice(0, 7)))
      for (let day = truth.from + 31; day <= truth.until; day++) {
        const text = new Date(day * 86_400_000).toISOString().slice(0, 7)
        if (calendar.isSchoolDay(day) && text < '2026-06') expect(months).toContain(text)
      }
    }
  })

  it('never has one person in two places at once', () => {
    const stays = views.flatMap((view) =>
      view.visits.map((visit) => {
        const [from = '', until = ''] = (visit.data.time ?? '').split(' to ')
        return { key: `${visit.day} ${visit.who}`, site: view.id, from, until }
      }),
    )
    const byPerson = new Map<string, typeof stays>()
    for (const stay of stays) byPerson.set(stay.key, [...(byPerson.get(stay.key) ?? []), stay])
    for (const list of byPerson.values()) {
      const sorted = list.sort((a, b) => (a.from < b.from ? -1 : 1))
      for (const [n, stay] of sorted.entries()) {
        const next = sorted[n + 1]
        if (next && next.site !== stay.site) expect(stay.until < next.from).toBe(true)
        expect(stay.from < stay.until).toBe(true)
      }
    }
  })

  it('has snap traps out only from one school day to the next', () => {
    const traps = views.flatMap((view) => view.devices.filter((device) => device.kind === 'snap-trap'))
    expect(traps.length).toBeGreaterThan(3)
    for (const trap of traps) {
      for (const { from, until } of trap.out) {
        expect(until).toBeDefined()
        for (let day = from; day <= (until ?? from); day++) {
          expect(calendar.isSchoolDay(day)).toBe(true)
          if (day > from) expect(trap.checks.some((check) => check.moment.day === day)).toBe(true)
        }
      }
    }
  })

  it('answers every complaint within two days', () => {
    for (const view of views) {
      for (const complaint of view.complaints) {
        const answer = view.visits.find((visit) => visit.data.answers?.[complaint.id] !== undefined)
        expect(answer && answer.day - complaint.day).toBeLessThanOrEqual(2)
      }
    }
  })

  it('mends every condition before the day stated for it, or has not come to that day yet', () => {
    for (const condition of views.flatMap((view) => view.conditions)) {
      expect(condition.owner).toBeDefined()
      expect(condition.due).toBeDefined()
      expect(condition.closed?.day ?? truth.until).toBeLessThanOrEqual(condition.due ?? 0)
    }
  })

  it('passes the whole check, with nothing to note', () => {
    const asOf = truth.until
    const result = runCheck(memorySource(ledger.files), { asOf, asOfIsToday: false })
    const standing = result.problems.filter((problem) => standsOn(problem, asOf))
    expect(standing.map((problem) => `${problem.rule} ${problem.at.file}`)).toEqual([])
    expect(result.notChecked).toEqual([])
  })
})
