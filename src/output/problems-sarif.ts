import type { LocatedException, LocatedProblem } from '../check/locate-problems.js'
import type { Location } from '../files/locate.js'
import { isoOf } from '../measure/calendar.js'
import { ruleById } from '../rules/all.js'
import { clean, jsonText } from './clean.js'
import type { Compared, ProblemsPage } from './problems.js'
import { isPath, notComparedSentence, pathInRepository, sentenceOf } from './problems.js'
import { wellFormed } from './well-formed.js'

export interface SarifOptions {
  /** Version of this program. */
  readonly version: string
  /** Folder of the ledger in the git repository that holds it; `''` when the ledger is its root. */
  readonly prefix?: string
}

/**
 * A check as one run of SARIF 2.1.0 (OASIS Standard, Static Analysis Results Interchange Format, plus Errata 01). Section
 * numbers below are those of the standard. It holds no time, no machine and no absolute path: same ledger, same bytes.
 */
export function problemsSarif(page: ProblemsPage, options: SarifOptions): string {
  const prefix = options.prefix ?? ''
  const rules = rulesOf(page)
  const ruleIndex = new Map(rules.map(({ id }, index) => [id, index]))
  const identityOf = identities()
  const resultOf = (located: LocatedProblem | LocatedException) => ({
    ruleId: located.problem.rule,
    ruleIndex: ruleIndex.get(located.problem.rule),
    level: located.problem.level,
    message: message(sentenceOf(located.problem)),
    locations: [placeOf(located.problem.at.file, located.location, prefix)],
    ...relatedOf(located, prefix),
    partialFingerprints: { 'doorsweep/v1': identityOf(located.fingerprint) },
    // All results of a run have this property or none has (3.27.23): an empty list says that nothing covers it.
    suppressions: 'exception' in located ? [suppressionOf(located)] : [],
    properties: propertiesOf(located),
  })
  return jsonText({
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: 'doorsweep',
            version: options.version,
            rules,
            notifications,
          },
        },
        invocations: [
          {
            executionSuccessful: page.notChecked.length === 0,
            toolExecutionNotifications: [
              ...page.notChecked.map((entry) =>
                notificationOf(0, entry.what, `Not checked: ${entry.what}: ${entry.why}.`, prefix),
              ),
              ...(page.compared?.notCompared ?? []).map((entry) =>
                notificationOf(1, entry.what, `Not compared: ${notComparedSentence(entry)}`, prefix),
              ),
            ],
          },
        ],
        // Without a uri: where the repository lies is for whoever reads the file to say (3.14.14).
        originalUriBaseIds: {
          [baseId]: {
            description: {
              text: 'The root of the git repository that holds the ledger, or of the ledger where there is none.',
            },
          },
        },
        columnKind: 'utf16CodeUnits',
        results: [...page.problems, ...page.excepted].map(resultOf),
        properties: {
          asOf: page.asOf,
          source: wellFormed(page.source),
          records: page.records,
          sites: page.sites,
          laterRecords: page.later,
          hidden: page.hidden,
          ...(page.compared ? { compared: comparedOf(page.compared) } : {}),
        },
      },
    ],
  })
}

const baseId = '%SRCROOT%'

/** What there can be to say about the check itself, by index. */
const notifications = [
  {
    id: 'not-checked',
    shortDescription: { text: 'Something that was asked for could not be looked at' },
    defaultConfiguration: { level: 'error' },
  },
  {
    id: 'not-compared',
    shortDescription: {
      text: 'Something could not be looked at before the change, so nothing in it is known to be old',
    },
    defaultConfiguration: { level: 'warning' },
  },
] as const

/** Only the rules that occur: a page of one problem is then a page, not a book. Sorted, so that the order tells nothing. */
function rulesOf({ problems, excepted }: ProblemsPage) {
  const ids = new Set([...problems, ...excepted].map(({ problem }) => problem.rule))
  return [...ids].sort().map((id) => {
    const rule = ruleById(id)
    if (!rule) return { id }
    return {
      id,
      shortDescription: plainText(rule.title),
      fullDescription: plainText(rule.why),
      help: plainText(rule.remedy),
      defaultConfiguration: { level: rule.level },
      properties: { source: rule.source, judgedOn: rule.judgedOn, actor: rule.actor, gap: rule.gap },
    }
  })
}

/**
 * A message, in which braces are doubled, since single ones hold placeholders for its arguments (3.11.5).
 */
function message(text: string): { text: string } {
  return { text: plainText(text).text.replace(/[{}]/g, (brace) => brace + brace) }
}

/**
 * What a rule says of itself has no arguments, so its braces stay single: a line to paste stays one. A bracket followed by
 * a parenthesis would be a link (3.11.6), and the standard has no way to say that it is none: a blank keeps them apart, so
 * that text of a record never becomes something to click on.
 */
function plainText(text: string): { text: string } {
  return { text: wellFormed(clean(text)).replaceAll('](', '] (') }
}

function uriOf(file: string, prefix: string): string {
  return wellFormed(pathInRepository(file, prefix)).split('/').map(encodeURIComponent).join('/')
}

/** The end of a region is the column after its last character (3.30.8), as it is in a `Location`. */
function placeOf(file: string, location: Location | null, prefix: string) {
  const region = location && {
    startLine: location.line,
    startColumn: location.column,
    endLine: location.endLine,
    endColumn: location.endColumn,
  }
  return {
    physicalLocation: {
      artifactLocation: { uri: uriOf(file, prefix), uriBaseId: baseId },
      ...(region ? { region } : {}),
    },
  }
}

function relatedOf(located: LocatedProblem | LocatedException, prefix: string) {
  if (!('related' in located) || located.related.length === 0) return {}
  return {
    relatedLocations: located.related.map(({ related, location }, index) => ({
      id: index + 1,
      ...placeOf(related.place.file, location, prefix),
      message: message(related.says),
    })),
  }
}

/**
 * Two problems that are equal in all but their line have one fingerprint. What identifies a result ought to be its own
 * (3.27.16, 3.27.17), so the second of them gets `:2`, the third `:3`, in the order in which they stand in the file.
 */
function identities(): (fingerprint: string) => string {
  const seen = new Map<string, number>()
  return (fingerprint) => {
    const times = (seen.get(fingerprint) ?? 0) + 1
    seen.set(fingerprint, times)
    return times === 1 ? fingerprint : `${fingerprint}:${times}`
  }
}

/** `external`: said in a record of its own, not beside the line. `accepted`: an exception in force needs no further word. */
function suppressionOf({ exception, why, until }: LocatedException) {
  const end = until === undefined ? '' : ` (until ${isoOf(until)})`
  return {
    kind: 'external',
    status: 'accepted',
    justification: wellFormed(clean(`${why}${end}; see ${exception}`)),
    properties: {
      exception: wellFormed(exception),
      why: wellFormed(why),
      until: until === undefined ? null : isoOf(until),
    },
  }
}

function propertiesOf({ problem, fingerprint }: LocatedProblem | LocatedException) {
  return {
    fingerprint,
    key: wellFormed(problem.at.path.join('.')),
    site: problem.site === undefined ? null : wellFormed(problem.site),
    from: problem.at.span || problem.from <= 0 ? null : isoOf(problem.from),
    actor: problem.actor,
    gap: problem.gap,
    sources: problem.sources.map(({ kind, text }) => ({ kind, text: wellFormed(text) })),
  }
}

function notificationOf(index: 0 | 1, what: string, text: string, prefix: string) {
  return {
    descriptor: { id: notifications[index].id, index },
    level: notifications[index].defaultConfiguration.level,
    message: message(text),
    ...(isPath(what) ? { locations: [placeOf(what, null, prefix)] } : {}),
  }
}

/** `known`: how many problems stand that the change did not bring. They are no results of this run. */
function comparedOf({ with: words, commits, known }: Compared) {
  return { with: wellFormed(words), commits, known }
}
