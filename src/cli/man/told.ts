/** What the manual page says beyond what help says of the commands. */

export const reading: readonly string[] = [
  "Keeps a school district's pest control file: records in plain YAML under git, in a folder called a ledger, in which schools, areas, devices, visits, complaints, repairs, applications and the papers of products are told. It checks what is missing, contradictory or overdue, computes with what was counted, and reports from it.",
  'It states what the records show and do not show. It authorises no application: the label is the law, local code and licensed people decide.',
  'The ledger is the one around the current folder, or the one that `--ledger` names. The result is on standard output and nothing else is. The same ledger and the same `--as-of` give the same bytes on every machine.',
]

export const exitCodes: readonly (readonly [string, string])[] = [
  ['0', 'Done; of `check`: nothing at or above `--fail-on`.'],
  ['1', 'Done, and there are problems.'],
  [
    '2',
    'Called wrongly, or something could not be read, so that not everything was checked. It goes before 1.',
  ],
  ['130', 'Interrupted during a guided visit; the answers are kept.'],
]

export const environment: readonly (readonly [string, string])[] = [
  ['NO_COLOR', 'If it is not empty, no colour is used. `--color` goes before it.'],
  ['FORCE_COLOR', 'Colour also where standard output is no terminal; 0 means none. NO_COLOR goes before it.'],
  ['TERM', 'If it is dumb, no colour is used.'],
  ['DOORSWEEP_TODAY', 'A day, such as 2026-03-12, that stands in for today, so that a run can be repeated.'],
]

export const files: readonly (readonly [string, string])[] = [
  ['district.yaml', 'Marks the folder that is a ledger: time zone, school calendar, rulebooks in force.'],
  [
    'people/, firms/, products/, plans/',
    'Who is licensed for what, what labels say, thresholds and tactics.',
  ],
  [
    'rulebooks/, wordings/, exceptions/',
    "The district's own duties, words of notices, and departures decided on.",
  ],
  ['education/, filings/, reviews/', 'What was taught, filed, and looked back on.'],
  ['sites/SITE/site.yaml', 'The areas of a site, its property diagram, its contract, who is who.'],
  [
    'sites/SITE/visits/DATE-WHO.yaml',
    'A visit. Beside it, named alike, stand applications, complaints, repairs, notices, incidents, storage and specimens.',
  ],
  ['.doorsweep/', 'Visits that are not finished. It is no part of the records.'],
]
