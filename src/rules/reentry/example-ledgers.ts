/** Ledgers of the examples of this family, laid over the base: an invented act, and one spray in the kitchen. */

/** The district under a rulebook of its own, with the sections given. */
export const underOwnRulebook = (sections: string) => `
=== district.yaml
format: 1
name: Example District
state: OR
address: 1 Example Square
time-zone: America/Los_Angeles
records-begin: 2026-03-01
coordinator: [{from: 2026-03-01, who: marsh}]
rulebooks:
  - {from: 2026-03-01, rulebook: practice}
  - {from: 2026-03-01, rulebook: us-federal}
  - {from: 2026-03-01, rulebook: own}
calendar: [{from: 2025-09-02, until: 2026-06-12}]
occupied: [{from: 2026-03-01, days: [mon, tue, wed, thu, fri], hours: 07:15 to 17:00}]
=== rulebooks/own.yaml
title: Invented rules of the example district
jurisdiction: Example District
read-on: 2026-03-01
covers: what this example shows
does-not-cover: [everything else]
${sections.trim()}
`

/** A spray on a Thursday after school, with every fact that is asked of it; `facts` are its last lines. */
export const spray = (facts: string, time = '17:10 to 17:30', day = '2026-03-12') => `
=== sites/oak/applications/${day}-okafor.yaml
by: okafor
status: done
product: spray-a
pest: german-cockroach
areas: {kitchen: {amount: 2 fl oz, extent: 3 ft2, where: below the dish machine, within-reach: no}}
method: spot
amount: 2 fl oz
treated-extent: 3 ft2
time: ${time}
equipment: hand sprayer 1
lot: L-4410
identified: {by: okafor, how: nymphs on K1 under a hand lens}
threshold: 2 nymphs on K1 on 2026-03-11
reason: second catch of nymphs after cleaning
tried-first: cleaned, vacuumed, leak mended
chosen-because: bait was not taken and cannot be put below the drip tray
follow-up: {by: 2026-04-02, look: K1}
${facts.trim()}
`
