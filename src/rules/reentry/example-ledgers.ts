import { underOwnRulebook as laidOver } from '../own-rulebook.js'

/** Ledgers of the examples of this family, laid over the base: an invented act, and one spray in the kitchen. */

/** The district under a rulebook of its own, with the sections given, and the hours in which people are in its buildings. */
export const underOwnRulebook = (sections: string) =>
  laidOver(sections, {
    district: 'occupied: [{from: 2026-03-01, days: [mon, tue, wed, thu, fri], hours: 07:15 to 17:00}]',
  })

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
