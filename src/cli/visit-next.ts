import { dirname, join, relative } from 'node:path'
import { git } from '../files/git.js'
import { readRecord } from '../files/read-record.js'
import type { RecordToBe } from '../writing/visit/finish.js'
import type { OpenLedger } from './find-ledger.js'
import type { Here } from './runner.js'

/** What comes after a visit was written: the lines to type, from the folder one is in. The path itself is the result. */
export function tellNext(here: Here, { root }: OpenLedger, { file, text, site }: RecordToBe): void {
  const stem = (/([^/]+)\.yaml$/.exec(file)?.[1] ?? file).split('-')
  const day = stem.slice(0, 3).join('-')
  const who = stem.slice(3).join('-')
  const fromHere = relative(here.cwd(), root)
  const isInside = fromHere === '' || /^(?:\.\.[/\\]?)+$/.test(fromHere)
  const files = [file, ...filesIn(text).map((one) => join(dirname(file), one))]
  const paths = files.map((path) => shellWord(isInside ? relative(here.cwd(), join(root, path)) : path))
  const gitHere = isInside ? 'git' : `git -C ${shellWord(fromHere)}`
  const ledger = isInside ? '' : ` --ledger ${shellWord(fromHere)}`
  const commit =
    git(root, ['rev-parse', '--git-dir']) === null
      ? []
      : [
          `  ${gitHere} add ${paths.join(' ')}`,
          `  ${gitHere} commit -m ${shellWord(`Visit to ${site} on ${day} by ${who}`)}`,
        ]
  here.stderr.write(
    `${[
      'Written. Next:',
      ...commit,
      `  doorsweep report service ${site}/${day}-${who}${ledger}    the page for the site manager`,
    ].join('\n')}\n`,
  )
}

/** Photos and scans that the record names, from its own folder. */
function filesIn(text: string): string[] {
  const read = readRecord(Buffer.from(text, 'utf8'))
  const files = 'data' in read ? read.data.files : undefined
  return Object.values(Object(files)).flatMap((one) => {
    const { file } = Object(one)
    return typeof file === 'string' ? [file] : []
  })
}

/** A word as a shell takes it unchanged. */
function shellWord(word: string): string {
  return /^[A-Za-z0-9_./:@%+=,-]+$/.test(word) && !word.startsWith('-')
    ? word
    : `'${word.replaceAll("'", `'\\''`)}'`
}
