import { describe, expect, it } from 'vitest'
import { problemsSarif } from '../../src/output/problems-sarif.js'
import { noLog, noSuchArea, notUsable } from '../cli/overlays.js'
import { examplePage } from './example-page.js'
import { hostile, hostilePage } from './hostile-page.js'
import { logExcepted, pageOf } from './problems-page.js'
import { departuresFromSarif } from './sarif-schema.js'

const documentOf = (page: ReturnType<typeof pageOf>, prefix?: string) =>
  JSON.parse(problemsSarif(page, prefix === undefined ? { version: '1.2.3' } : { version: '1.2.3', prefix }))
const runOf = (overlay: string, prefix?: string) => documentOf(pageOf(overlay), prefix).runs[0]

/** One of two units of a pair, without the other. */
const halfPair = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g

describe('the schema of SARIF', () => {
  const sound = () => documentOf(pageOf(noSuchArea))

  it('refuses what is not SARIF, so that what it accepts means something', () => {
    expect(departuresFromSarif({ ...sound(), version: '2.0.0' })).not.toEqual([])
    expect(departuresFromSarif({ ...sound(), extra: 1 })).not.toEqual([])
    const level = sound()
    level.runs[0].results[0].level = 'fatal'
    expect(departuresFromSarif(level)).not.toEqual([])
    const uri = sound()
    uri.runs[0].results[0].locations[0].physicalLocation.artifactLocation.uri = 'sites/a b.yaml'
    expect(departuresFromSarif(uri)).not.toEqual([])
    const line = sound()
    line.runs[0].results[0].locations[0].physicalLocation.region.startLine = 0
    expect(departuresFromSarif(line)).not.toEqual([])
  })

  it.each([
    ['nothing wrong', () => pageOf('')],
    ['an error', () => pageOf(noSuchArea)],
    ['a warning and an error', () => pageOf(noLog + noSuchArea)],
    ['something excepted', () => pageOf(logExcepted)],
    ['something not checked', () => pageOf(notUsable)],
    ['hostile text', hostilePage],
    ['the example district', examplePage],
  ])('accepts a check with %s', (_, page) => {
    expect(departuresFromSarif(documentOf(page()))).toEqual([])
    expect(departuresFromSarif(documentOf(page(), 'records/pest'))).toEqual([])
  })
})

describe('a check as SARIF', () => {
  it('says which program it was, and nothing of time or machine', () => {
    const run = runOf('')
    expect(run.tool.driver).toMatchObject({ name: 'doorsweep', version: '1.2.3', rules: [] })
    expect(run.results).toEqual([])
    expect(run.columnKind).toBe('utf16CodeUnits')
    expect(run.invocations).toEqual([{ executionSuccessful: true, toolExecutionNotifications: [] }])
    expect(run.properties).toEqual({
      asOf: '2026-03-20',
      source: 'memory',
      records: 11,
      sites: 1,
      laterRecords: 0,
      hidden: 0,
    })
    expect(JSON.stringify(run)).not.toMatch(/file:|startTimeUtc|machine/)
  })

  it('has of a problem the sentence and the place, with the end after the last letter', () => {
    const { results } = runOf(noSuchArea)
    expect(results).toHaveLength(1)
    expect(results[0]).toMatchObject({
      ruleId: 'dangling-reference',
      level: 'error',
      message: { text: 'There is no area `kitchn`; did you mean `kitchen`?' },
      locations: [
        {
          physicalLocation: {
            artifactLocation: {
              uri: 'sites/oak/visits/2026-03-10-okafor.yaml',
              uriBaseId: '%SRCROOT%',
            },
            // `inspected: [kitchn]` is the third line; the word takes columns 13 to 18.
            region: { startLine: 3, startColumn: 13, endLine: 3, endColumn: 19 },
          },
        },
      ],
      suppressions: [],
      properties: { site: 'oak', key: 'inspected.0', gap: false },
    })
  })

  it('counts columns in UTF-16 units, as it says', () => {
    const line = '  drip: {new: "\u{1f4a7}\u{1f4a7} drip", area: kitchn, gives: water}'
    const { results } = runOf(`
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback
by: okafor
inspected: [kitchen]
conditions:
${line}
`)
    const wrong = results.find((result: { ruleId: string }) => result.ruleId === 'dangling-reference')
    const { region } = wrong.locations[0].physicalLocation
    expect(region).toMatchObject({ startLine: 5, startColumn: line.indexOf('kitchn') + 1 })
    // Two signs outside the basic plane come before it: by code points it would be two columns less.
    expect(region.startColumn).toBe([...line].join('|').split('|').indexOf('k') + 1 + 2)
  })

  it('describes each rule that occurs once, and no other', () => {
    const { tool, results } = runOf(noLog + noSuchArea)
    const { rules } = tool.driver
    expect(rules.map(({ id }: { id: string }) => id)).toEqual([
      'complaint-log-not-read',
      'dangling-reference',
    ])
    for (const result of results) expect(rules[result.ruleIndex].id).toBe(result.ruleId)
    for (const rule of rules) {
      for (const part of [rule.shortDescription, rule.fullDescription, rule.help])
        expect(part.text.length).toBeGreaterThan(10)
      expect(['error', 'warning', 'note']).toContain(rule.defaultConfiguration.level)
      expect(rule.properties.source.text).toMatch(/\w/)
    }
    // A rule has a page of its own in the program; the project has no address to name.
    expect(tool.driver.informationUri).toBeUndefined()
  })

  it('has what is excepted as suppressed, with the reason and its end; every result says whether it is', () => {
    const { results, tool } = runOf(logExcepted + noSuchArea)
    const levels = results.map(({ ruleId, suppressions }: { ruleId: string; suppressions: unknown[] }) => [
      ruleId,
      suppressions.length,
    ])
    expect(levels).toEqual([
      ['dangling-reference', 0],
      ['complaint-log-not-read', 1],
    ])
    expect(results[1].suppressions[0]).toEqual({
      kind: 'external',
      status: 'accepted',
      justification: 'the log is being bound anew (until 2026-04-10); see exceptions/log-away.yaml',
      properties: {
        exception: 'exceptions/log-away.yaml',
        why: 'the log is being bound anew',
        until: '2026-04-10',
      },
    })
    expect(tool.driver.rules[results[1].ruleIndex].id).toBe('complaint-log-not-read')
  })

  it('is no success when something could not be checked, and says what', () => {
    const { invocations, tool } = runOf(notUsable)
    expect(invocations[0].executionSuccessful).toBe(false)
    const [notification, ...more] = invocations[0].toolExecutionNotifications
    expect(more).toEqual([])
    expect(notification.level).toBe('error')
    expect(notification.message.text).toContain('Not checked: sites/oak: ')
    expect(notification.locations[0].physicalLocation.artifactLocation.uri).toBe('sites/oak')
    expect(tool.driver.notifications[notification.descriptor.index].id).toBe(notification.descriptor.id)
  })

  it('says of a comparison with what, how much was there before, and where that is in doubt', () => {
    const page = {
      ...pageOf(''),
      compared: {
        with: 'the merge base of main and HEAD',
        commits: ['0123456789abcdef0123456789abcdef01234567'],
        known: 4,
        notCompared: [{ what: 'sites/oak', why: 'it had no site.yaml' }],
      },
    }
    expect(departuresFromSarif(documentOf(page))).toEqual([])
    const { invocations, properties, tool } = documentOf(page).runs[0]
    expect(properties.compared).toEqual({
      with: 'the merge base of main and HEAD',
      commits: page.compared.commits,
      known: 4,
    })
    // Everything was looked at now, so it is a success; a reader is warned that more is shown than is new.
    expect(invocations[0].executionSuccessful).toBe(true)
    const [notification] = invocations[0].toolExecutionNotifications
    expect(notification.level).toBe('warning')
    expect(notification.message.text).toContain('it had no site.yaml')
    expect(tool.driver.notifications[notification.descriptor.index].id).toBe('not-compared')
  })

  it('keeps the lines that a rule gives to paste as they are', () => {
    const { rules } = documentOf(examplePage()).runs[0].tool.driver
    const rechecked = rules.find(({ id }: { id: string }) => id === 'condition-not-rechecked')
    expect(rechecked.help.text).toContain('`sink-drip: {holds: dry}`')
  })

  it('names places that belong to it, each with what it says', () => {
    const { results } = documentOf(hostilePage()).runs[0]
    expect(results[0].relatedLocations).toHaveLength(1)
    expect(results[0].relatedLocations[0]).toMatchObject({
      id: 1,
      physicalLocation: { region: { startLine: 3 } },
    })
    expect(results[0].relatedLocations[0].message.text).toContain('"quoted"')
    expect(runOf(noSuchArea).results[0]).not.toHaveProperty('relatedLocations')
  })
})

describe('paths in SARIF', () => {
  const uriOf = (prefix?: string) =>
    runOf(noSuchArea, prefix).results[0].locations[0].physicalLocation.artifactLocation.uri

  it.each([
    [undefined, 'sites/oak/visits/2026-03-10-okafor.yaml'],
    ['', 'sites/oak/visits/2026-03-10-okafor.yaml'],
    ['records', 'records/sites/oak/visits/2026-03-10-okafor.yaml'],
    ['records/', 'records/sites/oak/visits/2026-03-10-okafor.yaml'],
    ['our files/50%/pest#1?', 'our%20files/50%25/pest%231%3F/sites/oak/visits/2026-03-10-okafor.yaml'],
  ])('start at the root of the repository: prefix %j', (prefix, uri) => {
    expect(uriOf(prefix)).toBe(uri)
  })

  it('are the file names again when decoded, whatever is in them', () => {
    const page = hostilePage()
    const [result] = documentOf(page).runs[0].results
    const { uri } = result.locations[0].physicalLocation.artifactLocation
    expect(uri).toMatch(/^[A-Za-z0-9\-._~!*'()%/]+$/)
    expect(decodeURIComponent(uri)).toBe(page.problems[0]?.problem.at.file.replace(halfPair, '\ufffd'))
  })

  it('have no region where the file could not be read', () => {
    const [, second] = documentOf(hostilePage()).runs[0].results
    expect(second.locations[0].physicalLocation).not.toHaveProperty('region')
  })
})

describe('fingerprints in SARIF', () => {
  const printsOf = (overlay: string) =>
    runOf(overlay).results.map(
      ({ partialFingerprints }: { partialFingerprints: object }) => partialFingerprints,
    )
  const lineOf = (overlay: string) => runOf(overlay).results[0].locations[0].physicalLocation.region.startLine

  it('stay when lines are put in above', () => {
    const moved = noSuchArea.replace('inspected', '# a remark\n\n# another\ninspected')
    expect(lineOf(moved)).toBe(lineOf(noSuchArea) + 3)
    expect(printsOf(moved)).toEqual(printsOf(noSuchArea))
    expect(printsOf(noSuchArea)[0]['doorsweep/v1']).toMatch(/^[0-9a-f]{20}$/)
  })

  it('are those of the page, and of equal problems each its own', () => {
    const page = pageOf(noSuchArea + noLog)
    const [one] = page.problems
    if (!one) throw new Error('no problem')
    const twice = documentOf({ ...page, problems: [...page.problems, one, one] }).runs[0].results
    expect(
      twice.map(
        (result: { partialFingerprints: Record<string, string> }) =>
          result.partialFingerprints['doorsweep/v1'],
      ),
    ).toEqual([
      one.fingerprint,
      page.problems[1]?.fingerprint,
      `${one.fingerprint}:2`,
      `${one.fingerprint}:3`,
    ])
    expect(
      twice.map((result: { properties: { fingerprint: string } }) => result.properties.fingerprint),
    ).toEqual([one.fingerprint, page.problems[1]?.fingerprint, one.fingerprint, one.fingerprint])
  })
})

describe('hostile text in SARIF', () => {
  const text = problemsSarif(hostilePage(), { version: '1.2.3' })

  it('leaves no control character, direction mark or half character pair, also when parsed', () => {
    expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028\u202e\ufeff]/)
    const strings: string[] = []
    JSON.parse(text, (_, value) => {
      if (typeof value === 'string') strings.push(value)
      return value
    })
    expect(strings.filter((value) => value.match(halfPair))).toEqual([])
  })

  it('makes no link and no placeholder', () => {
    const { results, invocations } = JSON.parse(text).runs[0]
    const messages: string[] = [
      ...results.map((result: { message: { text: string } }) => result.message.text),
      ...invocations[0].toolExecutionNotifications.map(
        (entry: { message: { text: string } }) => entry.message.text,
      ),
    ]
    expect(messages).toHaveLength(5)
    for (const message of messages) {
      expect(message).toContain('[click] (javascript:alert)')
      expect(message).not.toContain('](')
      // Every brace is doubled: what is left without the doubled ones has none.
      expect(message.replaceAll('{{', '').replaceAll('}}', '')).not.toMatch(/[{}]/)
      expect(message.replaceAll('{{', '{').replaceAll('}}', '}')).toContain('{0} {{1}} }')
    }
    expect(hostile).toContain('](')
  })
})
