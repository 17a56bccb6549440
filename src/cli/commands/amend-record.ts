import { join, relative } from 'node:path'
import { isoOf } from '../../measure/calendar.js'
import { clean } from '../../output/clean.js'
import type { KeyChange } from '../../reports/history/changed-keys.js'
import { changedKeys, keyText, valueText } from '../../reports/history/changed-keys.js'
import type { Stated } from '../../reports/history/stated.js'
import type { AmendState } from '../../writing/amend/amend-state.js'
import { amendState, unstatedChanges } from '../../writing/amend/amend-state.js'
import { amendedText } from '../../writing/amend/amended.js'
import type { Edit } from '../../writing/amend/edits.js'
import { edited, removeEdit, setEdit } from '../../writing/amend/edits.js'
import { recordNamed } from '../../writing/amend/record-named.js'
import { writeAmended } from '../../writing/amend/write-amended.js'
import { knownIds } from '../../writing/new/write-new.js'
import { dayOption } from '../day-option.js'
import type { OpenLedger } from '../find-ledger.js'
import { openLedger } from '../find-ledger.js'
import { refuseUnknown } from '../refuse-unknown.js'
import type { ExitCode, Here } from '../runner.js'
import { tellWritten } from '../tell-written.js'
import { UsageError } from '../usage-error.js'
import type { AmendFlags } from './amend.js'

/** Corrects one committed event; or, when nothing is asked for, tells how. */
export async function amendRecord(here: Here, typed: string, flags: AmendFlags): Promise<ExitCode> {
  const ledger = openLedger([], flags.ledger === undefined ? {} : { ledger: flags.ledger }, here)
  const named = recordNamed(ledger.root, here.cwd(), typed)
  if ('refused' in named) throw new UsageError(clean(named.refused))
  const state = amendState(ledger.root, ledger.source, named.record)
  if ('refused' in state) throw new UsageError(clean(state.refused))
  const edits = editsOf(flags, state)
  const changes = changesToState(state, edits)
  const isAsked = [flags.why, flags.by, flags.on, flags.set, flags.remove].some((flag) => flag !== undefined)
  if (!isAsked) {
    here.stdout.write(howTo(ledger, state, changes, here))
    return 0
  }
  if (changes.length === 0) throw new UsageError(nothingChanges(ledger, state, edits, here))
  const correction = correctionOf(flags, ledger, state, changes)
  const text = amendedText(state.onDisk, edits, correction)
  if (text === null)
    throw new UsageError(
      `${shown(ledger, state, here)} is written in a way in which this cannot be changed from here. Change it in an editor, then run this again without --set and --remove; or write the entry under \`corrections\` by hand.`,
    )
  const written = writeAmended(ledger.root, ledger.source, state, text, ledger)
  const exitCode = tellWritten(written, state.record.file, ledger, here)
  if (exitCode === 0) here.stderr.write(`Corrected:\n${changeLines(changes)}Commit it with git.\n`)
  return exitCode
}

function shown({ root }: OpenLedger, { record }: AmendState, here: Here): string {
  return relative(here.cwd(), join(root, record.file))
}

function editsOf(flags: AmendFlags, { record, says }: AmendState): Edit[] {
  return [
    ...(flags.set ?? []).map((written) => setEdit(written, record.kind, says)),
    ...(flags.remove ?? []).map((key) => removeEdit(key, record.kind, says)),
  ].map((edit) => {
    if ('refused' in edit) throw new UsageError(clean(edit.refused))
    return edit
  })
}

/** Who, when and why: all of them, and what they say can be so. */
function correctionOf(
  { why, by, on }: AmendFlags,
  ledger: OpenLedger,
  { record, said }: AmendState,
  changes: readonly KeyChange[],
): Stated {
  const reason = clean((why ?? '').replace(/\s+/g, ' ').trim())
  if (by === undefined) throw new UsageError('Who corrects it? Add --by and the id of a person.')
  if (reason === '')
    throw new UsageError('Why is it corrected? Add --why and a reason; an empty one tells nobody anything.')
  refuseUnknown('person', by, knownIds(ledger.root, 'person'))
  const day = on === undefined ? ledger.asOf : dayOption('--on', on)
  if (day > ledger.asOf) throw new UsageError(`--on ${on}: that day is still to come.`)
  // What is planned is corrected before it happens.
  if (record.day !== undefined && day < record.day && said.status !== 'planned')
    throw new UsageError(
      `The correction would be of ${isoOf(day)}, before the event itself of ${isoOf(record.day)}.`,
    )
  return { on: isoOf(day), by, why: reason, keys: changes.map(({ path }) => keyText(path)) }
}

/** What no correction states yet; and what is asked for, though a correction that is not committed names the key already. */
function changesToState({ said, says }: AmendState, edits: readonly Edit[]): KeyChange[] {
  const after = edited(says, edits)
  const unstated = unstatedChanges(said, after)
  const known = new Set(unstated.map(({ path }) => keyText(path)))
  return [...unstated, ...changedKeys(says, after).filter(({ path }) => !known.has(keyText(path)))]
}

function nothingChanges(ledger: OpenLedger, state: AmendState, edits: readonly Edit[], here: Here): string {
  const file = shown(ledger, state, here)
  if (edits.length > 0)
    return `Nothing would change: ${file} says so already, as it was committed or under a correction that is already stated.`
  return `${file} says what the last commit says, or states what it changed; there is nothing to correct. Change it with --set KEY=VALUE or --remove KEY, or in an editor first.`
}

/** What is the right way from here, with lines that can be pasted. */
function howTo(ledger: OpenLedger, state: AmendState, changes: readonly KeyChange[], here: Here): string {
  const file = clean(shown(ledger, state, here))
  const command = `doorsweep amend ${file} --by PERSON --why "REASON"`
  if (changes.length > 0)
    return `${file} differs from the last commit, and no correction states it:\n${changeLines(changes)}State it, and commit both together:\n  ${command}\n`
  return `${file} is as it was committed. To correct it:
  ${command} --set KEY=VALUE
  ${command} --remove KEY
or change it in an editor, and state what you changed before you commit it:
  ${command}
A change that was committed without a word is stated by an entry at the end of the file:
  corrections:
    - {on: ${isoOf(ledger.asOf)}, by: PERSON, why: REASON, keys: [KEY]}
`
}

function changeLines(changes: readonly KeyChange[]): string {
  return changes
    .map(({ path, before, after }) => {
      const [was, is] = [valueText(before), valueText(after)]
      return clean(
        was === null
          ? `  ${keyText(path)}: now ${is}`
          : is === null
            ? `  ${keyText(path)}: was ${was}, taken away`
            : `  ${keyText(path)}: ${was} → ${is}`,
      )
    })
    .map((line) => `${line}\n`)
    .join('')
}
