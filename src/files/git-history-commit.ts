import { isUtf8 } from 'node:buffer'

/** Who git says made a commit, and when. Both are what was claimed when it was made. */
export interface Stamp {
  readonly name: string
  readonly email: string
  /** Seconds since 1970-01-01 00:00 UTC; undefined where no date can be read. */
  readonly seconds: number | undefined
}

/** A commit as its own object tells it. */
export interface CommitObject {
  readonly tree: string
  readonly parents: readonly string[]
  readonly author: Stamp
  readonly committer: Stamp
  /** What kind of signature the object bears, if one. Whether it is good is not looked at. */
  readonly signature: Signature | undefined
}

export type Signature = 'OpenPGP' | 'SSH' | 'X.509' | 'of an unknown kind'

/** Reads a commit object: headers up to the first empty line, a header going on where a line begins with a blank. */
export function parseCommit(bytes: Buffer): CommitObject {
  const end = bytes.indexOf('\n\n')
  const head = textOf(end === -1 ? bytes : bytes.subarray(0, end))
  const headers = new Map<string, string>()
  const parents: string[] = []
  let last = ''
  for (const line of head.split('\n')) {
    if (line.startsWith(' ')) {
      headers.set(last, `${headers.get(last) ?? ''}\n${line.slice(1)}`)
      continue
    }
    const blank = line.indexOf(' ')
    const [name, value] = blank === -1 ? [line, ''] : [line.slice(0, blank), line.slice(blank + 1)]
    last = name
    if (name === 'parent') parents.push(value)
    else if (!headers.has(name)) headers.set(name, value)
  }
  const signature = headers.get('gpgsig') ?? headers.get('gpgsig-sha256')
  return {
    tree: headers.get('tree') ?? '',
    parents,
    author: stampOf(headers.get('author') ?? ''),
    committer: stampOf(headers.get('committer') ?? ''),
    signature: signature === undefined ? undefined : kindOfSignature(signature),
  }
}

/** Names in an old encoding are read as Latin-1: every byte of it is a letter, and none of them is lost. */
function textOf(bytes: Buffer): string {
  return bytes.toString(isUtf8(bytes) ? 'utf8' : 'latin1')
}

/** Seconds beyond which no calendar of the program reaches: the end of the year 9999. */
const lastSecond = 253_402_300_799

function stampOf(text: string): Stamp {
  const [, name = '', email = '', rest = ''] = /^([^<]*)<([^>]*)>(.*)$/s.exec(text) ?? []
  const written = /^\s*(-?\d{1,15})(?:\s|$)/.exec(rest)?.[1]
  const seconds = written === undefined ? undefined : Number(written)
  return {
    name: (name === '' && email === '' ? text : name).trim(),
    email: email.trim(),
    seconds: seconds === undefined || seconds < 0 || seconds > lastSecond ? undefined : seconds,
  }
}

function kindOfSignature(text: string): Signature {
  if (text.includes('BEGIN PGP ')) return 'OpenPGP'
  if (text.includes('BEGIN SSH SIGNATURE')) return 'SSH'
  if (text.includes('BEGIN SIGNED MESSAGE')) return 'X.509'
  return 'of an unknown kind'
}
