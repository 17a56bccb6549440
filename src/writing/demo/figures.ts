/** Figures of the model that belong to no one pest. Invented, like all the others; README.md lists them. */
export const figures = {
  /** Standard deviation of the log-rate between sites, and between areas of one site. */
  siteSpread: 0.4,
  areaSpread: 0.3,
  /** Level, in multiples of the base rate, at which an infestation begins, and below which it is gone. */
  beginsAt: 3,
  goneBelow: 0.25,
  /** Decline a day of the log-rate once an infestation dies back by itself. */
  diesBack: 0.08,
  /** Faults of the building a site and year; what an open one adds to the log-rate of its area. */
  faultsPerYear: 5.5,
  faultLog: 0.6,
  /** Share of repairs that truly take that away again. */
  repairHelps: 0.8,
  /** Chance that one inspection sees a fault; share put right on the spot, or without a repair record. */
  faultSeen: 0.7,
  mendedOnTheSpot: 0.12,
  mendedQuietly: 0.3,
  /** Chance a check that a device is lost, and what each animal on it adds in the exponent. */
  lostAlways: 0.006,
  lostPerAnimal: 0.0008,
  /** Share of snap traps that go off by themselves in a night. */
  sprungAlone: 0.04,
  /** A round of snap traps: nights without a catch that end it, fewest and most nights. */
  quietNightsToEnd: 5,
  leastNights: 8,
  mostNights: 24,
  /** Share of boards moved on a routine visit. */
  moved: 0.008,
  /** Share of routine visits typed from paper by the clerk, and of visits with a stated correction later. */
  typedFromPaper: 0.12,
  corrected: 0.006,
  /** Share of months in which another technician stands in. */
  standsIn: 0.06,
  /** Share of sightings of small insects from which a specimen is sent. */
  specimenSent: 0.08,
  incidentsPerYear: 0.06,
  /** Share of sites with a new manager in a summer. */
  managerChanges: 0.06,
} as const
