import type { Draft } from '../draft.js'
import { lineWith, put, textOf } from '../draft.js'
import type { FaultKind, Random } from '../fault.js'
import { reportedAtLine } from '../fault.js'
import type { EventFile } from '../site-records.js'
import { eventsOf, routineVisitsOf, sitesOf, visitsOf } from '../site-records.js'

const inVisits = /^sites\/[^/]+\/visits\//

/** Faults of the text itself, as an editor, a merge or a copy and paste makes them. */
export const textFaults: readonly FaultKind[] = [
  {
    name: 'a visit is saved empty',
    expect: 'unreadable-file',
    at: inVisits,
    unchecked: true,
    make: spoil((text) => ({ text: text.slice(0, 0), line: 1 })),
  },
  {
    name: 'a person is saved empty',
    expect: 'unreadable-file',
    at: /^people\//,
    unchecked: true,
    make(draft, random) {
      const file = random.pick([...draft.files.keys()].filter((path) => path.startsWith('people/')))
      if (file === undefined) return null
      draft.files.set(file, '')
      return reportedAtLine(file, 1)
    },
  },
  {
    name: 'a visit holds a null byte',
    expect: 'unreadable-file',
    at: inVisits,
    unchecked: true,
    make: spoil((text) => ({ text: text.replace('purpose: ', 'purpose: \u0000'), line: undefined })),
  },
  {
    name: 'a line is indented with a tab',
    expect: 'not-plain-yaml',
    at: inVisits,
    unchecked: true,
    make: spoil((text, draft, { file }) =>
      text.includes('\n  none:')
        ? { text: text.replace('\n  none:', '\n\tnone:'), line: lineWith(draft, file, '  none:') }
        : null,
    ),
  },
  {
    name: 'marks of a merge are left in',
    expect: 'not-plain-yaml',
    at: inVisits,
    unchecked: true,
    make: spoil((text, draft, { file }) => ({
      text: text.replace(/^(purpose: .*)$/m, '<<<<<<< HEAD\n$1\n=======\npurpose: callback\n>>>>>>> other'),
      line: lineWith(draft, file, 'purpose: '),
    })),
  },
  {
    name: 'a bracket is not closed',
    expect: 'not-plain-yaml',
    at: inVisits,
    unchecked: true,
    make: spoil((text) =>
      /^inspected: .*\]$/m.test(text)
        ? { text: text.replace(/^(inspected: .*)\]$/m, '$1'), line: undefined }
        : null,
    ),
  },
  {
    name: 'text begins with an ampersand',
    expect: 'not-plain-yaml',
    at: inVisits,
    unchecked: true,
    make: spoil((text) => appended(text, 'notes: &c the board behind the door')),
  },
  {
    name: 'text begins with an exclamation mark',
    expect: 'not-plain-yaml',
    at: inVisits,
    unchecked: true,
    make: spoil((text) => appended(text, 'notes: !urgent look behind the door')),
  },
  {
    name: 'a second document follows',
    expect: 'not-plain-yaml',
    at: inVisits,
    unchecked: true,
    make: spoil((text) => ({ text: `${text}---\n${text}`, line: text.split('\n').length })),
  },
  {
    name: 'text holds a hidden character that turns it round',
    expect: 'not-plain-yaml',
    at: inVisits,
    unchecked: true,
    make: spoil((text) => appended(text, 'notes: look \u202Ebehind the door')),
  },
  {
    name: 'a key stands a second time',
    expect: 'duplicate-key',
    at: inVisits,
    unchecked: true,
    make: spoil((text) => ({ text: `${text}purpose: callback\n`, line: text.split('\n').length })),
  },
  {
    name: 'a device is read on two lines',
    expect: 'duplicate-key',
    at: inVisits,
    unchecked: true,
    make: spoil((text, draft, { file }) => {
      const reading = /^ {2}[A-Z][0-9]+: \{.*\}$/m.exec(text)?.[0]
      if (reading === undefined) return null
      return {
        text: text.replace(reading, `${reading}\n${reading}`),
        line: lineWith(draft, file, reading) + 1,
      }
    }),
  },
  {
    name: 'a telephone number begins with zeros',
    expect: 'text-yaml-changes',
    at: /^people\//,
    unchecked: true,
    make(draft, random) {
      const files = [...draft.files].filter(
        ([path, text]) => path.startsWith('people/') && /^phone: /m.test(text),
      )
      const [file, text] = random.pick(files) ?? []
      if (file === undefined || text === undefined) return null
      draft.files.set(file, text.replace(/^phone: .*$/m, 'phone: 0077'))
      return reportedAtLine(file, lineWith(draft, file, 'phone: '))
    },
  },
  {
    name: 'a lot number is all digits, the first of them zeros',
    expect: 'text-yaml-changes',
    at: /^sites\/[^/]+\/applications\//,
    unchecked: true,
    make(draft, random) {
      const applications = sitesOf(draft).flatMap((site) => eventsOf(draft, site, 'applications'))
      const file = random.pick(applications.filter(({ data }) => data.lot !== undefined))?.file
      if (file === undefined) return null
      put(draft, file, ['lot'], 'X')
      draft.files.set(file, textOf(draft, file).replace(/^lot: .*$/m, 'lot: 002211'))
      return reportedAtLine(file, lineWith(draft, file, 'lot: '))
    },
  },
]

interface Spoilt {
  readonly text: string
  /** Line of the fault, where the text tells it without doubt. */
  readonly line: number | undefined
}

/** Spoils the text of one visit that allows it: a routine one as often as any other. */
function spoil(
  how: (text: string, draft: Draft, visit: EventFile) => Spoilt | null,
): (draft: Draft, random: Random) => ReturnType<FaultKind['make']> {
  return (draft, random) => {
    const site = random.pick(sitesOf(draft)) ?? ''
    const visits = random.below(2) === 0 ? visitsOf(draft, site) : routineVisitsOf(draft, site)
    for (const visit of random.shuffled(visits)) {
      const spoilt = how(textOf(draft, visit.file), draft, visit)
      if (!spoilt) continue
      draft.files.set(visit.file, spoilt.text)
      return { where: [{ file: visit.file, ...(spoilt.line === undefined ? {} : { line: spoilt.line }) }] }
    }
    return null
  }
}

/** The text with a line at its end, if it has no such key yet. */
function appended(text: string, line: string): Spoilt | null {
  const key = line.slice(0, line.indexOf(':') + 1)
  if (text.includes(`\n${key}`)) return null
  return { text: `${text}${line}\n`, line: text.split('\n').length }
}
