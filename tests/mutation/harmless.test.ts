import { describe, expect, it } from 'vitest'
import { parse, stringify } from 'yaml'
import { isoOf } from '../../src/measure/calendar.js'
import { addVisit, idOf } from './added.js'
import { baseLedgers, cleanLedger } from './base-ledgers.js'
import type { Draft } from './draft.js'
import { copyOf, listAt, mapAt, put, take } from './draft.js'
import { verdictOn } from './measure-faults.js'
import { devicesOf, eventsOf, routineVisitsOf, sitesOf, visitsOf } from './site-records.js'

/** Ways to write the same ledger, and records that are as good as those they replace: nothing may be told of them. */
const harmless: Readonly<Record<string, (draft: Draft) => void>> = {
  'lines end as on Windows': rewrite((text) => text.replaceAll('\n', '\r\n')),
  'every record has remarks': rewrite(
    (text) => `# first\n${text.replaceAll(/^(\w[^\n]*)$/gm, '$1 # seen')}\n# last\n`,
  ),
  'records are written as JSON': rewrite((text) => JSON.stringify(parse(text), null, 2)),
  'every text is in quotes': rewrite((text) =>
    stringify(parse(text), { defaultStringType: 'QUOTE_SINGLE', defaultKeyType: 'PLAIN', lineWidth: 0 }),
  ),
  'keys stand in another order': rewrite((text) => stringify(reversed(parse(text)), { lineWidth: 0 })),
  'nothing is written on one line': rewrite((text) => stringify(parse(text), { lineWidth: 0 })),
  'a site has another name': (draft) => {
    const [site] = sitesOf(draft)
    for (const [file, text] of [...draft.files]) {
      draft.files.delete(file)
      draft.files.set(file.replace(`sites/${site}/`, 'sites/renamed/'), text)
    }
    replaceWord(draft, site ?? '', 'renamed')
  },
  'a person has another name': (draft) => {
    const [site] = sitesOf(draft)
    const who = String(routineVisitsOf(draft, site ?? '')[0]?.data.by)
    for (const [file, text] of [...draft.files]) {
      draft.files.delete(file)
      draft.files.set(file.replace(new RegExp(`([/-])${who}\\.yaml$`), '$1renamed.yaml'), text)
    }
    replaceWord(draft, who, 'renamed')
  },
  'a device has another name': (draft) => replaceWord(draft, 'K1', 'Kitchen-1'),
  'an area has another name': (draft) => replaceWord(draft, 'playground', 'play-area', 'kind: '),
  'conditions are called by their full names': (draft) => {
    for (const site of sitesOf(draft)) {
      const full = new Map<string, string>()
      const later = [...visitsOf(draft, site), ...eventsOf(draft, site, 'repairs')]
      for (const { file, data } of visitsOf(draft, site))
        for (const [name, entry] of Object.entries(mapAt(data, 'conditions')))
          if (mapAt(entry).new !== undefined) full.set(name, full.has(name) ? '' : `${idOf(file)}/${name}`)
      for (const { file, data } of later) {
        for (const [name, entry] of Object.entries(mapAt(data, 'conditions'))) {
          const id = full.get(name)
          if (!id || mapAt(entry).new !== undefined) continue
          take(draft, file, ['conditions', name])
          put(draft, file, ['conditions', id], entry)
        }
        for (const [at, name] of listAt(data, 'mends').entries())
          if (full.get(String(name))) put(draft, file, ['mends', at], full.get(String(name)) ?? '')
      }
    }
  },
  'visits were typed from paper filled in on the day': (draft) => {
    for (const site of sitesOf(draft))
      for (const { file, day } of visitsOf(draft, site)) put(draft, file, ['on-paper'], isoOf(day))
  },
  'two people share a round: half of the traps are read on a second visit of the day': (draft) => {
    for (const site of sitesOf(draft)) {
      const visit = routineVisitsOf(draft, site).at(-2)
      if (!visit) continue
      const stay = new Set(['moved', 'taken-up'].flatMap((key) => Object.keys(mapAt(visit.data, key))))
      for (const id of listAt(visit.data, 'picked-up')) stay.add(String(id))
      const moving = devicesOf(draft, site)
        .filter(({ kind, set }) => kind === 'sticky-trap' && set.day < visit.day)
        .flatMap(({ id, looks }) =>
          stay.has(id)
            ? []
            : looks.filter((look) => look.visit.file === visit.file).map((look) => ({ id, look })),
        )
        .filter(({ look }, at) => look.reading !== null && at % 2 === 0)
      for (const { id } of moving) take(draft, visit.file, ['readings', id])
      const readings = Object.fromEntries(moving.map(({ id, look }) => [id, look.reading ?? {}]))
      if (moving.length > 0) addVisit(draft, site, visit.day, 'trap-check', { readings }, 'second')
    }
  },
}

describe.each(Object.entries(harmless))('%s', (_, change) => {
  it.each(baseLedgers.slice(0, 4))('and the ledger of seed $seed stays clean', (options) => {
    const draft = copyOf(cleanLedger(options))
    const before = new Map(draft.files)
    change(draft)
    expect(draft.files).not.toEqual(before)
    expect(verdictOn(draft)).toEqual({ standing: [], ended: [], toldTwice: [], notChecked: [] })
  })
})

function rewrite(how: (text: string) => string): (draft: Draft) => void {
  return (draft) => {
    for (const [file, text] of draft.files) if (file.endsWith('.yaml')) draft.files.set(file, how(text))
  }
}

function reversed(data: unknown): unknown {
  if (Array.isArray(data)) return data.map(reversed)
  if (typeof data !== 'object' || data === null) return data
  return Object.fromEntries(
    Object.entries(data)
      .reverse()
      .map(([key, value]) => [key, reversed(value)]),
  )
}

/** Writes another word for one, wherever it stands by itself or in the name of a record, unless `after` is before it. */
function replaceWord(draft: Draft, word: string, other: string, after = '\n'): void {
  const pattern = new RegExp(`(?<!${after})(?<![A-Za-z0-9])(?<![a-z]-)${word}(?![A-Za-z0-9])(?!-[a-z])`, 'g')
  rewrite((text) => text.replaceAll(pattern, other))(draft)
}
