import { ledgerFormat, siteRule } from '../rule.js'

export const sightingNamesNoPest = siteRule<{ name: string; both: boolean }>({
  id: 'sighting-names-no-pest',
  title: 'a sighting names no pest, or two at once',
  level: 'error',
  judgedOn: 'the day of the record',
  why: 'What was seen counts for the pest it names; without one it counts for none.',
  remedy:
    'Write `pest` with an id of the pest table or of a plan (`pest: unidentified` while it is not told, with what it `looks` like), or `other` for an animal in neither.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ name, both }) =>
    both
      ? `${name === '' ? 'This complaint' : `\`${name}\``} names both a pest and another animal.`
      : `\`${name}\` names neither a pest nor another animal.`,
  *check(view) {
    for (const { name, facts, at, day } of view.sightings) {
      const both = facts.pest !== undefined && facts.other !== undefined
      if (!both && (facts.pest !== undefined || facts.other !== undefined)) continue
      const path = both ? [...at.path, 'other'] : at.path
      yield { args: { name, both }, at: { file: at.file, path, onKey: true }, from: day }
    }
    // Whoever complains need not know what it was, but it cannot have been two animals.
    for (const { file, day, data } of view.complaints) {
      if (data.pest !== undefined && data.other !== undefined)
        yield { args: { name: '', both: true }, at: { file, path: ['other'], onKey: true }, from: day }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
found:
  window-sill: {area: room-1, evidence: dead} # expect: sighting-names-no-pest
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
found:
  window-sill: {other: earwig, area: room-1, evidence: dead}
`,
})
