import type { Command } from 'commander'
import type { RecordKind } from '../../records/kinds.js'
import type { NewRecord } from '../../writing/new/place.js'
import type { ExitCode, Here, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'

interface NewFlags {
  readonly site?: string
  readonly by?: string
  readonly on?: string
  readonly word?: string
  readonly print?: boolean
  readonly ledger?: string
}

export function addNew(program: Command, run: Runner): void {
  program
    .command('new')
    .summary('write a record to fill in, at its place in the ledger')
    .description(
      'Writes a record to fill in, at its place in the ledger, and prints its path. What is needed comes first; every optional field is a comment line. Nothing is ever overwritten.',
    )
    .argument('<kind>', 'kind of record, see below')
    .argument(
      '[id]',
      'id of a person, firm, site, product, plan, rulebook, wording or exception; year of a review',
    )
    .option('--site <id>', 'the site it happened at')
    .option('--by <id>', 'who did or noted it')
    .option('--on <date>', 'the day it happened; today if not said')
    .option('--word <word>', 'tells two records of one person, kind and day apart')
    .option('--print', 'write it to standard output instead of a file')
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .addHelpText(
      'after',
      `
Kinds: district, person, product, plan, rulebook, site, visit, application, complaint, repair, notice, incident,
storage, specimen, education, filing, review, firm, wording, exception.

Examples:
  doorsweep new district
  doorsweep new person okafor
  doorsweep new site oak
  doorsweep new visit --site oak --by okafor
  doorsweep new review 2026 --by marsh`,
    )
    .action(
      run(async (here, [kind, id, flags]) =>
        newRecord(here, String(kind), id as string | undefined, flags as NewFlags),
      ),
    )
}

async function newRecord(
  here: Here,
  word: string,
  id: string | undefined,
  flags: NewFlags,
): Promise<ExitCode> {
  const { join, relative } = await import('node:path')
  const { asksOf, placeOf } = await import('../../writing/new/place.js')
  const { skeletonOf } = await import('../../writing/new/skeleton.js')
  const { writeNew } = await import('../../writing/new/write-new.js')
  const kind = await kindOf(word)
  const names = await asked(kind, id, flags)
  const { root, today } = await ledgerFor(here, kind, flags)
  const record: NewRecord = { ...names, kind, day: await dayFor(flags.on, today) }
  const whole = {
    ...record,
    ...(kind === 'review' && id === undefined ? { id: await yearOf(record.day) } : {}),
  }
  const place = placeOf(whole)
  if ('refused' in place) throw new UsageError(place.refused)
  await refuseUnknown(root, record)
  const text = skeletonOf(kind, record)
  if (flags.print === true) {
    here.stdout.write(text)
    return 0
  }
  const written = writeNew(root, place.file, text)
  const shown = relative(here.cwd(), join(root, place.file))
  if (written !== 'written') {
    const remedy =
      written.refused !== 'taken'
        ? ''
        : asksOf(kind).by
          ? ' Open it; or, if it is another, add --word and a word that tells them apart.'
          : ' Open it, or choose another id.'
    throw new UsageError(`${shown} ${written.detail}.${remedy}`)
  }
  here.stdout.write(`${shown}\n`)
  here.stderr.write('Fill it in, then run `doorsweep check`.\n')
  return 0
}

async function kindOf(word: string): Promise<RecordKind> {
  const { allRecordKinds } = await import('../../records/kinds.js')
  const { nearest } = await import('../../records/nearest.js')
  const kind = allRecordKinds.find((known) => known === word)
  if (kind) return kind
  const meant = nearest(word, allRecordKinds)
  throw new UsageError(
    `There is no kind of record ${word}${meant === undefined ? `; there are: ${allRecordKinds.join(', ')}.` : `; did you mean ${meant}?`}`,
  )
}

/** The ledger around the caller, or for a new district the folder that will be one. */
async function ledgerFor(
  here: Here,
  kind: RecordKind,
  flags: NewFlags,
): Promise<{ root: string; today: number }> {
  const { openLedger } = await import('../find-ledger.js')
  const { today } = await import('../today.js')
  const options = flags.ledger === undefined ? {} : { ledger: flags.ledger }
  if (kind !== 'district') {
    const ledger = openLedger([], options, here)
    return { root: ledger.root, today: ledger.asOf }
  }
  const { resolve } = await import('node:path')
  const { existsSync } = await import('node:fs')
  const root = resolve(here.cwd(), flags.ledger ?? '.')
  const around = existsSync(root) ? ledgerAround(() => openLedger([], options, here).root) : undefined
  if (around !== undefined && flags.print !== true)
    throw new UsageError(
      `There is a ledger at ${around} already. Go to a folder outside it, or name one with --ledger.`,
    )
  // The time zone of the district is not known yet.
  return { root, today: today(Intl.DateTimeFormat().resolvedOptions().timeZone, here) }
}

function ledgerAround(find: () => string): string | undefined {
  try {
    return find()
  } catch (error) {
    if (error instanceof UsageError) return undefined
    throw error
  }
}

async function dayFor(on: string | undefined, today: number): Promise<number> {
  if (on === undefined) return today
  const { dayOption } = await import('../day-option.js')
  return dayOption('--on', on)
}

async function yearOf(day: number): Promise<string> {
  const { isoOf } = await import('../../measure/calendar.js')
  return isoOf(day).slice(0, 4)
}

/** What the kind's place asks for, all of it and nothing else. */
async function asked(
  kind: RecordKind,
  id: string | undefined,
  flags: NewFlags,
): Promise<Omit<NewRecord, 'kind' | 'day'>> {
  const { asksOf } = await import('../../writing/new/place.js')
  const asks = asksOf(kind)
  if (asks.id && id === undefined) throw new UsageError(`Which one? Write \`doorsweep new ${kind} ID\`.`)
  if (!asks.id && !asks.year && id !== undefined)
    throw new UsageError(
      `A ${kind} has no id of its own: its place follows from ${asks.by ? 'its day and who noted it' : 'its kind'}. Leave out ${id}.`,
    )
  const missing = [
    ...(asks.site && flags.site === undefined ? ['--site ID'] : []),
    ...(asks.by && flags.by === undefined ? ['--by ID'] : []),
  ]
  if (missing.length > 0) throw new UsageError(`A new ${kind} also needs ${missing.join(' and ')}.`)
  if (!asks.site && flags.site !== undefined)
    throw new UsageError(`A ${kind} does not lie at a site; leave out --site.`)
  if (!asks.by && flags.word !== undefined)
    throw new UsageError(`Only events, named by day and person, take --word.`)
  return {
    ...(id === undefined ? {} : { id }),
    ...(flags.site === undefined ? {} : { site: flags.site }),
    ...(flags.by === undefined ? {} : { by: flags.by }),
    ...(flags.word === undefined ? {} : { word: flags.word }),
  }
}

/** A record of a site or person that is not there would be read by no one. */
async function refuseUnknown(root: string, { kind, site, by }: NewRecord): Promise<void> {
  const { nearest } = await import('../../records/nearest.js')
  const { knownIds } = await import('../../writing/new/write-new.js')
  for (const [what, id] of [
    ['site', site],
    ['person', by],
  ] as const) {
    if (id === undefined || kind === 'district') continue
    const known = knownIds(root, what)
    if (known.includes(id)) continue
    const meant = nearest(id, known)
    throw new UsageError(
      `There is no ${what} ${id}${meant === undefined ? `; start with \`doorsweep new ${what} ${id}\`.` : `; did you mean ${meant}? If not, start with \`doorsweep new ${what} ${id}\`.`}`,
    )
  }
}
