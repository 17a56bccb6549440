import { sprayApplication } from '../example-applications.js'

/**
 * Ants on a playing field beside the school of the base, sprayed as one spot with a product whose label names no time
 * to stay out. Lines of the same key take the place of its own.
 */
export const onTheField = (...lines: readonly string[]) => `
=== products/spray-a/product.yaml
name: Invented Spray A
kind: pesticide
registration: 99999-2
states: {OR: [{from: 2025-01-01}]}
active-ingredients: {deltamethrin: {strength: 0.06 %}}
formulation: ready-to-use-liquid
signal-word: caution
restricted-use: no
labels:
  - from: 2026-01-05
    file: label.txt
    says:
      places: [outdoors]
      pest-groups: [ant]
      methods: [spot, perimeter, broadcast]
      rates: {area: {at-most: 16 fl oz, per: 1000 ft2}}
sds: [{from: 2026-01-05, file: sds.txt}]
=== sites/oak/site.yaml
name: Oak School
address: 2 Example Lane
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, firm: invented-pest-services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
  field: {kind: turf}
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen, room-1, field]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
${sprayApplication(
  '2026-03-12',
  'pest: pavement-ant',
  'areas: {field: {amount: 0.04 fl oz, extent: 3 ft2, placements: 1, where: mound by the goal}}',
  'weather: {wind: 3 mph, wind-from: W, temperature: 58 F, sky: dry}',
  'kept-out: {how: flags, until: dry}',
  ...lines,
)}`
