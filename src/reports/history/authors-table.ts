import { getOrMake } from '../../ledger/get-or-make.js'
import type { Loaded } from '../../ledger/loaded.js'
import { isoOf } from '../../measure/calendar.js'
import type { Row, Table } from '../../types.js'
import type { CommitFacts } from './facts.js'
import { shortId } from './facts.js'

/** Commits of an author whom the ledger does not know. */
export interface UnknownAuthor {
  readonly name: string
  readonly email: string
  readonly commits: readonly CommitFacts[]
}

/** Authors who are no person of the ledger, by name or by an e-mail that one commits as; first the one with most commits. */
export function unknownAuthors(
  commits: readonly CommitFacts[],
  people: ReadonlyMap<string, Loaded<'person'>>,
): UnknownAuthor[] {
  const persons = [...people.values()].map(({ data }) => data)
  const names = new Set(persons.map(({ name }) => alike(name)))
  const emails = new Set(persons.flatMap((person) => person['commits-as'] ?? []).map(alike))
  const unknown = new Map<string, CommitFacts[]>()
  for (const commit of commits) {
    const { name, email } = commit.author
    if (names.has(alike(name)) || emails.has(alike(email))) continue
    const key = `${name}\n${email}`
    getOrMake(unknown, key, (): CommitFacts[] => []).push(commit)
  }
  return [...unknown.values()]
    .map((theirs) => ({
      name: theirs[0]?.author.name ?? '',
      email: theirs[0]?.author.email ?? '',
      commits: theirs,
    }))
    .sort((a, b) => b.commits.length - a.commits.length || (a.commits[0]?.at ?? 0) - (b.commits[0]?.at ?? 0))
}

/** Names and addresses are compared without regard to capitals, blanks and how accents are put together. */
function alike(text: string): string {
  return text.normalize('NFC').toLowerCase().replace(/\s+/g, ' ').trim()
}

export function authorsTable(authors: readonly UnknownAuthor[]): Table {
  return {
    id: 'authors',
    title: 'Authors whom the ledger does not know',
    columns: [
      { id: 'author', title: 'author' },
      { id: 'email', title: 'e-mail' },
      { id: 'commits', title: 'commits', decimals: 0 },
      { id: 'changed', title: 'records changed', decimals: 0 },
      { id: 'first', title: 'first' },
      { id: 'last', title: 'last' },
      { id: 'one', title: 'first commit' },
    ],
    rows: authors.map(rowOf),
    shownToPeople: 20,
    empty: 'Every author is a person of the ledger.',
  }
}

function rowOf({ name, email, commits }: UnknownAuthor): Row {
  const days = commits.flatMap(({ committerDay }) => committerDay ?? [])
  return {
    cells: {
      author: name === '' ? null : name,
      email: email === '' ? null : email,
      commits: commits.length,
      changed: commits.reduce((sum, { records }) => sum + records, 0),
      first: days.length === 0 ? null : isoOf(days.reduce((a, b) => Math.min(a, b))),
      last: days.length === 0 ? null : isoOf(days.reduce((a, b) => Math.max(a, b))),
      one: commits[0] === undefined ? null : shortId(commits[0]),
    },
    records: [],
  }
}
