/**
 * Published action thresholds, as plans. All numbers: University of Wyoming Extension, school IPM threshold chart
 * (uwyo.edu/wyschool_ipm/about-school-ipm/keys/thresh-chart.html): house ants 5 per room in classrooms and public
 * areas, 3 per room in kitchens, 5 per 100 ft2 in maintenance areas in two successive checks; carpenter ants 3 per
 * room, in kitchens 2; cockroaches 1 per room. The tactics are invented for these tests.
 */
const source = 'source: "U. Wyoming Extension, school IPM threshold chart"'

export const chartPlans: Readonly<Record<string, string>> = {
  'plans/ant.yaml': `
title: House ants
spans:
  - from: 2026-01-01
    thresholds:
      classroom: {act-at: 5, per: room, ${source}}
      public: {act-at: 5, per: room, ${source}}
      kitchen: {act-at: 3, per: room, ${source}}
      utility: {act-at: 5, per: 100 ft2, checks: 2, ${source}}
    tactics: {wipe: {do: wipe the trail}}
`,
  'plans/carpenter-ant.yaml': `
title: Carpenter ants
spans:
  - from: 2026-01-01
    thresholds:
      kitchen: {act-at: 2, per: room, ${source}}
      elsewhere: {act-at: 3, per: room, ${source}}
    tactics: {dry: {do: find the damp wood}}
`,
  'plans/cockroach.yaml': `
title: Cockroaches
spans:
  - from: 2026-01-01
    thresholds: {elsewhere: {act-at: 1, per: room, ${source}}}
    tactics: {clean: {do: clean and dry}}
`,
}

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
