import { purposes } from '../records/visit.js'

/** Something to write down by hand: words or a number, a mark, or a mark at one of several words. */
export type Ask = { readonly write: string; readonly as: 'words' | 'number' | 'mark' } | Choice

export interface Choice {
  readonly write: string
  readonly as: 'choice'
  readonly choices: readonly string[]
}

/** What a visit record asks of the visit as a whole. */
export const visitAsks: readonly Ask[] = [
  { write: 'by', as: 'words' },
  { write: 'day', as: 'words' },
  { write: 'from', as: 'number' },
  { write: 'to', as: 'number' },
  { write: 'purpose', as: 'choice', choices: purposes.map((purpose) => purpose.split('-').join(' ')) },
]

export const siteManagerAsk: Choice = {
  write: 'site manager',
  as: 'choice',
  choices: ['met', 'someone standing in', 'left word'],
}

export const complaintLogAsk: Choice = {
  write: 'complaint log',
  as: 'choice',
  choices: ['read', 'not found', 'locked away'],
}

/** What it asks of an area. */
export const areaAsks: readonly Ask[] = [
  { write: 'inspected', as: 'mark' },
  { write: 'could not be entered, because', as: 'words' },
]

export const complaintAsk: Ask = { write: 'found and said', as: 'words' }

export const openConditionAsks: readonly Ask[] = [
  { write: 'still there', as: 'mark' },
  { write: 'fixed now', as: 'mark' },
  { write: 'closed: found put right', as: 'mark' },
  { write: 'how it is now', as: 'words' },
]

/** Of what was put right and not looked at since. */
export const repairedConditionAsks: readonly Ask[] = [
  { write: 'holds', as: 'mark' },
  { write: 'back again', as: 'mark' },
  { write: 'how it is now', as: 'words' },
]

/** Of a sighting or a new condition, one to a line. */
export const foundAsks: readonly Ask[] = [
  { write: 'pest, or what is wrong', as: 'words' },
  { write: 'evidence and age, or what it gives', as: 'words' },
  { write: 'how many', as: 'number' },
  { write: 'where exactly', as: 'words' },
]

/** Last, for whoever enters the page. */
export const entryAsks: readonly Ask[] = [
  { write: 'entered by', as: 'words' },
  { write: 'on', as: 'words' },
]
