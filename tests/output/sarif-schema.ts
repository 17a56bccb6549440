import { readFileSync } from 'node:fs'
import { Ajv } from 'ajv'

/** The schema of SARIF 2.1.0 as published: see the notice beside it. Draft 4, of which it uses nothing that later drafts changed but `id`. */
const published = JSON.parse(
  readFileSync(new URL('../reference/sarif-2.1.0-rtm.5.json', import.meta.url), 'utf8'),
) as Record<string, unknown>

const { $schema: _, id: __, ...schema } = published

/** RFC 3986, appendix A, without the parts that take an address apart: what may stand in a URI at all. */
const ofUri = /^(?:[A-Za-z0-9\-._~:/?#[\]@!$&'()*+,;=]|%[0-9A-Fa-f]{2})*$/

const ajv = new Ajv({ strict: false, allErrors: true, unicodeRegExp: false })
ajv.addFormat('uri-reference', ofUri)
ajv.addFormat('uri', (text) => ofUri.test(text) && URL.canParse(text))
ajv.addFormat('date-time', /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d+)?Z$/)
const validate = ajv.compile(schema)

/** Where a document departs from the schema of SARIF; empty when it does not. */
export function departuresFromSarif(document: unknown): string[] {
  return validate(document)
    ? []
    : (validate.errors ?? []).map((error) => `${error.instancePath} ${error.message}`)
}
