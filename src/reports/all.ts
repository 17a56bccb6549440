/** The reports there are, by the name a user types; each is made by one file of this folder. */
export const reportNames = {
  gaps: 'what should be there and is not, by site and by who can mend it',
  trend: 'catch per trap, and whether it is rising, falling, steady or unclear',
  onset:
    'the visit at which a rise should have been noticed, by site and pest, and how seldom that is a false alarm',
  effect:
    'whether treatments, repairs and other actions worked: catch before and after, and which tactics work here',
  hotspots:
    'where catches come from: clusters of devices, devices that stand out, and open conditions among them',
  coverage: 'whether more monitors are needed, and where: what the present ones could have missed',
  conditions: 'how conditions stand: open, overdue, time to repair by owner, and what came before pests',
  complaints: 'how complaints stand: open, overdue, time to answer',
  contract: 'what the contract asks for and what was done: visits, checks of devices, answers to complaints',
  thresholds: 'which action thresholds are crossed now, and what the plan says next',
  use: 'which pesticides were used: how much, where, against what, and the rows of yearly state forms',
  compliance:
    'for an auditor: every duty in force held against every application, what shows it or is missing, by clause and record',
  service: 'the page left with the site manager after one visit',
  application:
    'what parents may want to know of one application: why, what, where, when, how long to stay out',
} as const

export type ReportName = keyof typeof reportNames
