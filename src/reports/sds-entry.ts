import type { InRegister } from './sds-compare.js'
import { dateText } from './sds-compare.js'
import type { SheetFacts } from './sds-facts.js'

/** One item of the list `sds` of a product, with what was found on the sheet and nothing that was not. */
export function entryOf(
  facts: SheetFacts,
  {
    file,
    sha256,
    register,
    asOf,
  }: {
    readonly file: string
    readonly sha256: string
    readonly register: InRegister | undefined
    readonly asOf: string
  },
): string[] {
  const entry = register?.entry?.sheet
  const { revision } = facts
  const [day, ...others] = revision?.readings ?? []
  const isCertain = day !== undefined && others.length === 0
  return [
    entry === undefined
      ? `  - from: ${asOf} # write the first day on which it was at hand`
      : `  - from: ${entry.from}`,
    ...(entry?.until === undefined ? [] : [`    until: ${entry.until}`]),
    `    file: ${scalar(file)}`,
    ...(/[\\:\r\n]/.test(file) ? ['    # a record takes no such name: rename the file'] : []),
    `    sha256: ${sha256}`,
    ...(isCertain
      ? [`    revised: ${day}`]
      : (revision?.dates ?? []).map(
          (date) =>
            `    # revised: the sheet has ${dateText(date).replace(/[\r\n]+/g, ' ')}; write which day it is`,
        )),
    ...(facts.headings.found.length === 0 ? [] : [`    sections: [${facts.headings.found.join(', ')}]`]),
  ]
}

/** A name as YAML takes it; in double quotes where it could be taken for something else. */
function scalar(text: string): string {
  return /^[A-Za-z][A-Za-z0-9._/()-]*(?: [A-Za-z0-9._/()-]+)*$/.test(text) ? text : JSON.stringify(text)
}
