import type { Source } from '../../files/source.js'
import { clean } from '../../output/clean.js'
import type { ApplicationPage } from '../../reports/application.js'
import type { Report } from '../../types.js'
import { UsageError } from '../usage-error.js'
import { eventFile } from './event-file.js'

/** What the page of one application can be asked beside what every report can. */
export interface ApplicationFlags {
  readonly names?: boolean
  readonly showWork?: boolean
}

const howToName = 'name its file, or its site and name: ottermere/2026-01-10-okafor'

/** The page of the application that was typed: its file, from where you are or from the root, or `site/date-who`. */
export async function applicationPage(
  source: Source,
  { asOf, cwd }: { readonly asOf: number; readonly cwd: string },
  flags: ApplicationFlags,
  typed: string,
): Promise<Report> {
  const { applicationReport } = await import('../../reports/application.js')
  const withNames = flags.names === true
  const options = { asOf, withNames, withRecords: withNames || flags.showWork === true }
  const file = eventFile('applications', typed, cwd)
  const page = applicationReport(source, options, file)
  if ('report' in page) return page.report
  throw new UsageError(await whyNone(source, page, typed, file))
}

async function whyNone(
  source: Source,
  page: Exclude<ApplicationPage, { report: unknown }>,
  typed: string,
  file: string,
): Promise<string> {
  const shown = clean(typed)
  if (page.refused === 'later than as-of')
    return `The application ${shown} is of ${page.day}, after the as-of day: nothing is known of it yet.`
  if (page.refused === 'not readable')
    return `There is no page of ${shown}, since something could not be read. ${clean(page.why)}. \`doorsweep check\` tells what is wrong.`
  const [, site = '', , name = ''] = file.split('/')
  const stem = name.replace(/\.yaml$/, '')
  const visit = `sites/${site}/visits/${name}`
  const isVisit = source.list().some(({ path }) => path === visit)
  if (isVisit)
    return `${shown} is a visit. This page is made of application records only; bait put into a device is told in the visit: \`doorsweep report service ${clean(`${site}/${stem}`)}\`.`
  const { inventoryOf, recordPathsOf } = await import('../../ledger/read-records.js')
  const { nearest } = await import('../../records/nearest.js')
  const known = [...inventoryOf(source).sites].flatMap(([id, files]) =>
    recordPathsOf(files).flatMap((path) => (path.kind === 'application' ? [`${id}/${path.id}`] : [])),
  )
  const meant = nearest(`${site}/${stem}`, known)
  const suggestion = meant === undefined ? howToName : `did you mean ${meant}?`
  return `There is no application ${shown}; ${suggestion}${meant === undefined ? '.' : ''}`
}
