import type { z } from 'zod'
import { application } from './application.js'
import { complaint } from './complaint.js'
import { district } from './district.js'
import { education } from './education.js'
import { exception } from './exception.js'
import { filing } from './filing.js'
import { firm } from './firm.js'
import { incident } from './incident.js'
import { notice } from './notice.js'
import { person } from './person.js'
import { plan } from './plan.js'
import { product } from './product.js'
import { repair } from './repair.js'
import { review } from './review.js'
import { rulebook } from './rulebook.js'
import { site } from './site.js'
import { specimen } from './specimen.js'
import { storage } from './storage.js'
import { visit } from './visit.js'
import { wording } from './wording.js'

/** Every kind of record, its schema, and where its files lie. The only list of kinds. */
export const recordKinds = {
  district: { schema: district, lies: 'district.yaml' },
  person: { schema: person, lies: 'people/<id>.yaml' },
  firm: { schema: firm, lies: 'firms/<id>.yaml' },
  product: { schema: product, lies: 'products/<id>/product.yaml' },
  plan: { schema: plan, lies: 'plans/<id>.yaml' },
  rulebook: { schema: rulebook, lies: 'rulebooks/<id>.yaml' },
  wording: { schema: wording, lies: 'wordings/<id>.yaml' },
  site: { schema: site, lies: 'sites/<site>/site.yaml' },
  visit: { schema: visit, lies: 'sites/<site>/visits/<date>-<who>.yaml' },
  application: { schema: application, lies: 'sites/<site>/applications/<date>-<who>.yaml' },
  complaint: { schema: complaint, lies: 'sites/<site>/complaints/<date>-<who>.yaml' },
  repair: { schema: repair, lies: 'sites/<site>/repairs/<date>-<who>.yaml' },
  notice: { schema: notice, lies: 'sites/<site>/notices/<date>-<who>.yaml' },
  incident: { schema: incident, lies: 'sites/<site>/incidents/<date>-<who>.yaml' },
  storage: { schema: storage, lies: 'sites/<site>/storage/<date>-<who>.yaml' },
  specimen: { schema: specimen, lies: 'sites/<site>/specimens/<date>-<who>.yaml' },
  education: { schema: education, lies: 'education/<date>-<who>.yaml' },
  filing: { schema: filing, lies: 'filings/<date>-<who>.yaml' },
  review: { schema: review, lies: 'reviews/<year>.yaml' },
  exception: { schema: exception, lies: 'exceptions/<id>.yaml' },
} as const

export type RecordKind = keyof typeof recordKinds
export type RecordOf<K extends RecordKind> = z.infer<(typeof recordKinds)[K]['schema']>

export const allRecordKinds = Object.keys(recordKinds) as RecordKind[]
