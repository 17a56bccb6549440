import { readFileSync, statSync } from 'node:fs'
import { resolve } from 'node:path'
import { importJson } from '../../output/import-json.js'
import { importText } from '../../output/import-text.js'
import { largestFile } from '../../writing/import/csv-text.js'
import type { ImportKind, MappingOf } from '../../writing/import/mapping.js'
import type { Asked } from '../../writing/import/plan-import.js'
import { planImport } from '../../writing/import/plan-import.js'
import { readMapping } from '../../writing/import/read-mapping.js'
import { writeAll } from '../../writing/import/write-all.js'
import { placeOf } from '../../writing/new/place.js'
import { openLedger } from '../find-ledger.js'
import type { ExitCode, Here } from '../runner.js'
import { UsageError } from '../usage-error.js'
import type { ImportFlags } from './import.js'
import { refuseUnknownNames } from './report.js'

/** Shows what a file would bring, and writes it where that was asked for and nothing is wrong with it. */
export async function importFile(
  here: Here,
  kind: ImportKind,
  file: string,
  flags: ImportFlags,
): Promise<ExitCode> {
  const ledger = openLedger([], flags.ledger === undefined ? {} : { ledger: flags.ledger }, here)
  await refuseWrongFlags(flags, ledger)
  const mapping = mappingOf(here, kind, flags.map)
  const given = {
    ...(flags.site === undefined ? {} : { site: flags.site }),
    ...(flags.by === undefined ? {} : { by: flags.by }),
    ...(flags.enteredBy === undefined ? {} : { enteredBy: flags.enteredBy }),
    ...(flags.word === undefined ? {} : { word: flags.word }),
  }
  const asked = { kind, mapping, file, bytes: bytesOf(here, file), given } as Asked
  const plan = planImport(ledger.source, asked, ledger)
  if ('unreadable' in plan) throw new UsageError(plan.unreadable)
  const isRight = plan.troubles.length === 0
  const isWritten = isRight && flags.write === true && plan.fresh.length > 0
  if (isWritten) {
    const done = writeAll(ledger.root, plan.fresh)
    if (done.is === 'stopped')
      throw new UsageError(
        `${done.file} ${done.detail}. ${
          done.left.length === 0
            ? 'What had been written was taken away again; nothing was written.'
            : `These were written and could not be taken away again: ${done.left.join(', ')}.`
        }`,
      )
  }
  const page = { ...plan, file, isWritten }
  here.stdout.write(flags.format === 'json' ? importJson(page) : importText(page, here.painter))
  return isRight ? 0 : 1
}

async function refuseWrongFlags(flags: ImportFlags, ledger: ReturnType<typeof openLedger>): Promise<void> {
  if (flags.site !== undefined) await refuseUnknownNames(ledger.source, { ...ledger, site: flags.site })
  for (const name of [flags.by, flags.enteredBy, flags.word]) {
    const place =
      name === undefined ? undefined : placeOf({ kind: 'visit', day: 0, site: 'site', by: 'by', word: name })
    if (place && 'refused' in place) throw new UsageError(`${name}: ${place.refused}`)
  }
}

function mappingOf<K extends ImportKind>(here: Here, kind: K, map: string | undefined): MappingOf<K> {
  if (map === undefined) return {} as MappingOf<K>
  const read = readMapping(kind, map, bytesOf(here, map))
  if ('mapping' in read) return read.mapping
  const lines = read.troubles.map(({ file, line, column, says }) => `${file}:${line}:${column}: ${says}`)
  throw new UsageError(`the mapping cannot be used.\n${lines.join('\n')}`)
}

function bytesOf(here: Here, file: string): Uint8Array {
  const path = resolve(here.cwd(), file)
  try {
    const { size } = statSync(path)
    if (size > largestFile)
      throw new UsageError(
        `${file} is ${size} bytes; at most ${largestFile} are read at once. Split it by year.`,
      )
    return readFileSync(path)
  } catch (error) {
    if (error instanceof UsageError) throw error
    throw new UsageError(`${file} cannot be read: ${codeOf(error)}.`)
  }
}

function codeOf(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : ''
  if (code === 'ENOENT') return 'there is no such file'
  if (code === 'EISDIR') return 'it is a folder'
  if (code === 'EACCES') return 'it is not yours to read'
  return code
}
