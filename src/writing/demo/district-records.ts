import { chance, pick, wholeBetween } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { dateOf, dateText, dayOf } from './days.js'
import { figures } from './figures.js'
import { planFiles } from './plans.js'
import type { ProductFaults } from './products.js'
import { productFaults, productFiles, productRevisions, products } from './products.js'
import { rulebookFile, rulebookId } from './rulebook.js'
import { calendarRecord } from './school-calendar.js'
import { siteFile } from './site-file.js'
import type { Person } from './staff.js'
import { districtName, firmFile, isRenewalDay, isTrainingDay, personFile } from './staff.js'
import type { DemoFile, Site, World } from './world.js'
import type { YamlMap } from './yaml.js'
import { mapText } from './yaml.js'

/** What the district's own records remember from day to day. */
export interface DistrictState {
  readonly faults: ReadonlyMap<string, ProductFaults>
  readonly revisions: ReadonlySet<Day>
  readonly lateRenewals: Set<string>
  readonly pending: {
    readonly day: Day
    readonly minute: number
    readonly message: string
    readonly file: DemoFile
  }[]
}

const policyText = `# Pest management policy

Invented policy of an invented district. Pests are kept down by cleaning, mending and closing gaps first; pesticides
come last, in the least hazardous form that works, and only by licensed applicators.
`

const policyYears = 2

/** The policy is adopted anew on the first of July of every second year and looked at again within three. */
function policyAdopted(from: Day, day: Day): Day {
  const first = dateOf(from).year - 1
  let adopted = dayOf(first, 7, 1)
  while (dayOf(dateOf(adopted).year + policyYears, 7, 1) <= day)
    adopted = dayOf(dateOf(adopted).year + policyYears, 7, 1)
  return adopted
}

function districtFile(world: World, day: Day): DemoFile {
  const { from } = world
  const adopted = policyAdopted(from, day)
  const record: YamlMap = {
    format: 1,
    name: districtName,
    state: 'OR',
    address: '1 Invented Square, Tarn Hollow',
    'time-zone': 'America/Los_Angeles',
    'records-begin': dateText(from),
    coordinator: [{ from: dateText(from), who: world.staff.coordinator.id }],
    rulebooks: [
      { from: dateText(from), rulebook: 'practice' },
      { from: dateText(from), rulebook: 'us-federal' },
      { from: dateText(from), rulebook: rulebookId },
    ],
    calendar: calendarRecord(world.calendar, from, day),
    occupied: [{ from: dateText(from), days: ['mon', 'tue', 'wed', 'thu', 'fri'], hours: '07:30 to 15:30' }],
    policies: {
      'ipm-policy': {
        title: 'Pest management policy',
        adopted: dateText(adopted),
        file: 'policies/ipm-policy.md',
        'review-by': dateText(dayOf(dateOf(adopted).year + 3, 7, 1)),
      },
    },
    'annual-review': { 'due-month': 6 },
    'unanswered-complaint-days': 5,
    notes: 'An invented district. Its people, schools and products do not exist.',
  }
  return { path: 'district.yaml', text: mapText(record) }
}

function person(world: World, state: DistrictState, who: Person, day: Day): DemoFile {
  return personFile(who, world.from, day, state.lateRenewals)
}

/** The first commits: the district's reference records, then each site with its people. */
export function openLedger(world: World, sites: readonly Site[]): DistrictState {
  const { staff, from } = world
  const state: DistrictState = {
    faults: productFaults(world.trouble, from),
    revisions: new Set(productRevisions(from, world.until)),
    lateRenewals: new Set(),
    pending: [],
  }
  const everyone = [staff.coordinator, staff.clerk, ...staff.technicians, ...staff.maintenance, staff.grounds]
  world.commit(staff.coordinator, from, 420, 'Begin the ledger of the district', [
    districtFile(world, from),
    { path: 'policies/ipm-policy.md', text: policyText },
    rulebookFile,
    firmFile(from, from),
    ...everyone.map((who) => person(world, state, who, from)),
    ...products.flatMap((product) => productFiles(product, from, from, state.faults.get(product.id))),
    ...planFiles(from),
  ])
  for (const site of sites) {
    const manager = site.managers[0]?.who
    world.commit(staff.coordinator, from, 450, `${site.name}: begin its records`, [
      siteFile(site),
      { path: `sites/${site.id}/diagram.svg`, text: site.diagram.text },
      person(world, state, site.custodian, from),
      ...(manager ? [person(world, state, manager, from)] : []),
    ])
  }
  return state
}

/** What the coordinator does for the whole district on a day. */
export function districtDay(world: World, state: DistrictState, sites: readonly Site[], day: Day): void {
  const { staff, from } = world
  for (const due of state.pending)
    if (due.day === day) world.commit(staff.coordinator, day, due.minute, due.message, [due.file])
  const { month, dayOfMonth: date } = dateOf(day)
  if (day === from) return
  if (month === 7 && date === 1) {
    world.commit(staff.coordinator, day, 540, 'School calendar of the coming years', [
      districtFile(world, day),
    ])
  }
  if (state.revisions.has(day)) {
    const files = products.flatMap((product) =>
      productFiles(product, from, day, state.faults.get(product.id)),
    )
    world.commit(staff.coordinator, day, 550, 'New labels and safety data sheets', files)
  }
  if (isTrainingDay(day) || isRenewalDay(day)) renewPeople(world, state, day)
  if (month === 7 && date === 20) changeManagers(world, state, sites, day)
  teach(world, sites, day)
  annualNotice(world, day)
  review(world, state, day)
}

function renewPeople(world: World, state: DistrictState, day: Day): void {
  const { staff, trouble } = world
  const renewal = isRenewalDay(day)
  for (const who of renewal ? staff.technicians : []) {
    if (trouble.happens('licence renewed late', '', day, who.id)) {
      state.lateRenewals.add(`${who.id} ${dateOf(day).year + 1}`)
    }
  }
  const people = renewal ? staff.technicians : [...staff.technicians, staff.coordinator]
  const message = renewal ? 'Licences renewed' : 'Yearly training'
  world.commit(staff.coordinator, day, 560, message, [
    ...people.map((who) => person(world, state, who, day)),
    ...(renewal ? [firmFile(world.from, day)] : []),
  ])
}

function changeManagers(world: World, state: DistrictState, sites: readonly Site[], day: Day): void {
  for (const site of sites) {
    if (!chance(site.random, figures.managerChanges)) continue
    const who = world.staff.hire('site-manager')
    const from = day + 26
    const last = site.managers.at(-1)
    if (last) last.until = from - 1
    site.managers.push({ from, who })
    world.commit(world.staff.coordinator, day, 570, `${site.name}: new site manager`, [
      siteFile(site),
      person(world, state, who, day),
    ])
  }
}

const lessons = [
  ['talk', 'why food stays out of classrooms', 'teachers'],
  ['walk-through', 'cleaning behind kitchen equipment', 'kitchen'],
  ['flyer', 'closing doors and reporting gaps', 'custodial'],
  ['email', 'what to write in the complaint log', 'office'],
] as const

function teach(world: World, sites: readonly Site[], day: Day): void {
  const { month, dayOfMonth: date } = dateOf(day)
  const wanted = { 9: 17, 11: 3, 2: 9, 4: 20 }[month as 9 | 11 | 2 | 4]
  if (wanted === undefined || date < wanted || date > wanted + 6 || !world.calendar.isSchoolDay(day)) return
  for (
    let earlier = day - 1;
    dateOf(earlier).dayOfMonth >= wanted && dateOf(earlier).month === month;
    earlier--
  ) {
    if (world.calendar.isSchoolDay(earlier)) return
  }
  const { coordinator } = world.staff
  const [kind, topic, audience] = pick(world.random, lessons)
  const chosen = sites.length > 3 ? [pick(world.random, sites).id] : undefined
  const record: YamlMap = {
    by: coordinator.id,
    kind,
    topic,
    audience,
    people: wholeBetween(world.random, 6, 60),
    sites: chosen,
  }
  world.commit(coordinator, day, 930, `Education: ${topic}`, [
    { path: `education/${dateText(day)}-${coordinator.id}.yaml`, text: mapText(record) },
  ])
}

/** The notice that goes to every home and desk in the second week of school. */
function annualNotice(world: World, day: Day): void {
  const year = world.calendar.years.find(({ from }) => day >= from + 7 && day <= from + 13)
  if (!year || !world.calendar.isSchoolDay(day)) return
  for (let earlier = year.from + 7; earlier < day; earlier++) if (world.calendar.isSchoolDay(earlier)) return
  const { coordinator } = world.staff
  const autumn = dateOf(year.from).year
  const record: YamlMap = {
    by: coordinator.id,
    what: 'annual-notice',
    year: `${autumn}-${autumn + 1}`,
    to: 'everyone',
    products: products.filter(({ kind }) => kind === 'pesticide').map(({ id }) => id),
    says: ['policy', 'products-expected', 'coordinator-contact', 'labels-and-sds-available'],
    where: 'note home and district web site',
  }
  world.commit(coordinator, day, 610, 'Annual notice of pest management', [
    { path: `filings/${dateText(day)}-${coordinator.id}.yaml`, text: mapText(record) },
  ])
}

/** The yearly review, early in June; in September its decisions are noted as done. */
function review(world: World, state: DistrictState, day: Day): void {
  const { year, month, dayOfMonth: date } = dateOf(day)
  const wanted = 3 + (year % 6)
  if (month !== 6 || date < wanted || date > wanted + 2 || !world.calendar.isWorkday(day)) return
  if (date > wanted && world.calendar.isWorkday(day - 1)) return
  if (world.trouble.happens('yearly review not held', '', day)) return
  const { coordinator } = world.staff
  const done = dayOf(year, 9, 15)
  const record = (finished: boolean): YamlMap => ({
    held: dateText(day),
    by: coordinator.id,
    present: ['IPM coordinator', 'maintenance head', 'food service head', 'nurse', 'contractor'],
    findings: {
      doors: 'outer doors let in mice in autumn',
      drains: 'kitchen drains brushed too rarely',
    },
    decisions: {
      'door-sweeps': {
        what: 'door sweeps on all dock doors looked at before school begins',
        who: coordinator.id,
        by: dateText(dayOf(year, 9, 30)),
        done: finished ? dateText(done) : undefined,
      },
    },
    corrections: finished
      ? [
          {
            on: dateText(done),
            by: coordinator.id,
            why: 'decision carried out',
            keys: ['decisions.door-sweeps.done'],
          },
        ]
      : undefined,
  })
  const path = `reviews/${year}.yaml`
  world.commit(coordinator, day, 900, 'Yearly review', [{ path, text: mapText(record(false)) }])
  state.pending.push({
    day: done,
    minute: 600,
    message: 'Decisions of the yearly review carried out',
    file: { path, text: mapText(record(true)) },
  })
}
