import { readdirSync, readFileSync } from 'node:fs'

const folder = new URL('../../examples/published-plans/plans/', import.meta.url)

/**
 * Published action thresholds, as the plans that can be copied into a ledger. The numbers the tests expect: University
 * of Wyoming Extension, school IPM threshold chart (uwyo.edu/wyschool_ipm/about-school-ipm/keys/thresh-chart.html):
 * house ants 5 per room in classrooms and public areas, 3 per room in kitchens, 5 per 100 ft2 in maintenance areas in
 * two successive checks; carpenter ants 3 per room, in kitchens 2; cockroaches 1 per room.
 */
export const chartPlans: Readonly<Record<string, string>> = Object.fromEntries(
  readdirSync(folder).map((name) => [`plans/${name}`, readFileSync(new URL(name, folder), 'utf8')]),
)

/** A site with an area of each kind the chart speaks of. The boiler room is 400 ft2, which is 4 times 100 ft2. */
export const chartSite = `
name: Oak School
site-manager: [{from: 2026-01-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-01-01, contractor: Invented Pest Services, routine-visits: monthly}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom}
  hall: {kind: public}
  boiler: {kind: utility, extent: 400 ft2}
  pump: {kind: utility}
`
