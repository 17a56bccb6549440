import { getOrMake } from '../ledger/get-or-make.js'
import type { SiteView } from '../ledger/site-view.js'
import type { Treatment } from '../ledger/treatments.js'
import { isPesticide } from '../ledger/treatments.js'
import type { Day, Problem } from '../types.js'
import type { HeldDuty } from './compliance-duties/assess.js'
import { dutiesHeld } from './compliance-duties/assess.js'
import { foundBesides, problemsAboutUses } from './compliance-duties/besides.js'
import type { Period } from './period.js'

/** One application, or the bait of one product put into devices on one visit, with every duty held against it. */
export interface Application {
  readonly site: string
  readonly day: Day
  readonly by: string
  readonly product: string
  readonly productName: string
  readonly how: Treatment['how']
  readonly file: string
  /** Devices into which bait was put. */
  readonly devices: readonly string[]
  readonly duties: readonly DutyOfApplication[]
}

export interface DutyOfApplication extends HeldDuty {
  /** Devices it is told of, where that is not all of them. */
  readonly devices: readonly string[]
}

/** What the report needs of a site, so that the rest of its records can be let go. */
export interface SiteUses {
  readonly site: string
  readonly begins: Day
  readonly applications: readonly Application[]
  readonly planned: number
  readonly cancelled: number
  /** Uses of the period of which nothing is judged: before the records, and of what is no pesticide. */
  readonly beforeRecords: number
  readonly noPesticide: number
  /** Days on which a visit tells of a pesticide and no application is recorded. */
  readonly notRecorded: readonly Day[]
}

export function collectUses(view: SiteView, { from, to }: Period, all?: readonly Problem[]): SiteUses {
  const isIn = ({ day }: { readonly day: Day }) => from <= day && day <= to
  const inPeriod = view.treatments.filter(isIn)
  const pesticides = inPeriod.filter((use) => use.product === undefined || isPesticide(use))
  const judged = pesticides.filter(({ day }) => day >= view.begins)
  const problems = problemsAboutUses(view, all)
  const groups = new Map<string, Treatment[]>()
  for (const treatment of judged) {
    const { file } = treatment.record
    const key = treatment.application ? file : `${file} ${treatment.productId}`
    getOrMake(groups, key, () => []).push(treatment)
  }
  const ofStatus = (status: string) =>
    view.applications.filter((application) => isIn(application) && application.data.status === status).length
  return {
    site: view.id,
    begins: view.begins,
    applications: [...groups.values()].flatMap((uses) => {
      const [first] = uses
      if (!first) return []
      return [
        {
          site: view.id,
          day: first.day,
          by: first.by,
          product: first.productId,
          productName: first.product?.data.name ?? first.productId,
          how: first.how,
          file: first.record.file,
          devices: uses.flatMap(({ device }) => (device ? [device.id] : [])),
          duties: alikeOnce(
            uses.map((use) => {
              const duties = dutiesHeld(view, use)
              return { use, duties: [...duties, ...foundBesides(problems, use, duties)] }
            }),
          ),
        },
      ]
    }),
    planned: ofStatus('planned'),
    cancelled: ofStatus('cancelled'),
    beforeRecords: pesticides.length - judged.length,
    noPesticide: inPeriod.length - pesticides.length,
    notRecorded: problems
      .filter(({ rule, from: day }) => rule === 'treatment-not-recorded' && isIn({ day }))
      .map(({ from: day }) => day),
  }
}

/** Answers that are the same for all bait of a visit are told once; where they differ, with the devices they are of. */
function alikeOnce(
  all: readonly { readonly use: Treatment; readonly duties: readonly HeldDuty[] }[],
): DutyOfApplication[] {
  const alike = new Map<string, { readonly duty: HeldDuty; readonly devices: string[] }>()
  for (const { use, duties } of all) {
    for (const duty of duties) {
      const { section, rulebook, name, citation, outcome, why } = duty
      const key = [section, rulebook, name, citation.text, outcome, why].join('\n')
      const one = getOrMake(alike, key, () => ({ duty, devices: [] }))
      if (use.device) one.devices.push(use.device.id)
    }
  }
  return [...alike.values()].map(({ duty, devices }) => ({
    ...duty,
    devices: devices.length < all.length ? devices : [],
  }))
}
