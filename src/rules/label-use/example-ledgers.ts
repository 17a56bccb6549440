/** A label that the examples of this family and of `need` share. */

/** Product spray-a of the base, with a line of its own in what its label says. */
export function sprayLabel(line: string): string {
  return `
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
      places: [indoors, outdoors]
      pest-groups: [cockroach, ant, stinging]
      methods: [crack-and-crevice, spot, perimeter, broadcast]
      rates: {area: {at-most: 16 fl oz, per: 1000 ft2}}
      keep-out-until-dry: yes
      ${line}
sds: [{from: 2026-01-05, file: sds.txt}]
`.replace(/\n +\n/, '\n')
}
