/** Overlays on the ledger of the rules' examples, each with one thing in it that a check can find. */

/** A warning: the complaint log was not read on the first visit. */
export const noLog = `
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
`

/** An error: an area that is not there. */
export const noSuchArea = `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback
by: okafor
inspected: [kitchn]
`

/** A note: how a device stands is not recorded. */
export const noPlacement = `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  S1: {kind: snap-trap, area: kitchen, secured: yes}
`

/** A record that cannot be used, so that its site is not checked. */
export const notUsable = `
=== sites/oak/visits/2026-03-11-okafor.yaml
purpose: callback
by: okafor
inspected: kitchen
`

/** Another site, without a problem of its own, or with the visit that is laid over it. */
export const otherSite = (id: string, visit = '') => `
=== sites/${id}/site.yaml
name: Other School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly}]
areas: {kitchen: {kind: kitchen}}
=== sites/${id}/visits/2026-03-06-okafor.yaml
purpose: routine
by: okafor
time: 08:10 to 08:50
site-manager: lind
complaint-log: read
inspected: [kitchen]
${visit === '' ? '' : `=== sites/${id}/visits/2026-03-09-okafor.yaml\npurpose: callback\nby: okafor\n${visit}\n`}`
