import { complaintText, repairText, sightingText } from '../../writing/log/quick-records.js'
import { placeOf } from '../../writing/new/place.js'
import { writeChecked } from '../../writing/write-checked.js'
import { dayOption } from '../day-option.js'
import { openLedger } from '../find-ledger.js'
import type { ExitCode, Here } from '../runner.js'
import { tellWritten } from '../tell-written.js'
import { UsageError } from '../usage-error.js'
import type { LogFlags } from './log.js'
import { refuseUnknownNames } from './report.js'

type LogKind = 'complaint' | 'repair' | 'sighting'

/** Writes the record, tells its path on standard output, and on standard error what it brings. */
export async function writeLog(here: Here, kind: LogKind, says: string, flags: LogFlags): Promise<ExitCode> {
  const ledger = openLedger([], flags.ledger === undefined ? {} : { ledger: flags.ledger }, here)
  await refuseUnknownNames(ledger.source, { ...ledger, site: flags.site })
  const day = flags.on === undefined ? ledger.asOf : dayOption('--on', flags.on)
  const place = placeOf({
    kind: kind === 'sighting' ? 'visit' : kind,
    day,
    site: flags.site,
    by: flags.by,
    ...(flags.word === undefined ? {} : { word: flags.word }),
  })
  if ('refused' in place) throw new UsageError(place.refused)
  const text = textOf(kind, says, flags)
  if (flags.print === true) {
    here.stdout.write(text)
    return 0
  }
  const done = writeChecked(ledger.root, ledger.source, { site: flags.site, file: place.file, text }, ledger)
  return tellWritten(done, place.file, ledger, here)
}

function textOf(kind: LogKind, says: string, flags: LogFlags): string {
  const noted = { by: flags.by, 'entered-by': flags.enteredBy, 'on-paper': flags.onPaper }
  switch (kind) {
    case 'complaint':
      return complaintText(
        noted,
        { from: flags.from, at: flags.at, area: flags.area, pest: flags.pest, other: flags.other },
        says,
      )
    case 'repair':
      return repairText(
        noted,
        { mends: flags.mends, area: flags.area, owner: flags.owner, order: flags.order, cost: flags.cost },
        says,
      )
    case 'sighting': {
      const { pest, other, area, evidence, age, count, cleaned, looks } = flags
      const name = flags.name ?? `${area}-${pest ?? 'animal'}`
      return sightingText(noted, name, {
        pest,
        other,
        area,
        evidence,
        age,
        count: count === undefined ? undefined : wholeNumber(count),
        cleaned,
        looks,
      })
    }
  }
}

function wholeNumber(text: string): number {
  if (!/^[0-9]{1,6}$/.test(text)) throw new UsageError(`--count ${text}: how many is a whole number.`)
  return Number(text)
}
