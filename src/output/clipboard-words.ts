import type { Clipboard, ClipboardArea, ClipboardComplaint } from '../reports/clipboard.js'
import type { ClipboardCondition } from '../reports/clipboard-conditions.js'
import type { ClipboardDevice, ClipboardDevices } from '../reports/clipboard-devices.js'

/** Sentences that stand on every form of the clipboard; made of records' text as it is, so not yet safe to show. */

export const howToMark =
  'Every device gets a mark: none, a count, or why it was not read (missing, damaged, wet, full, or not reached). An empty row was not looked at.'

export const cautionsBefore = 'Before you start'

/** Lines to write on for what is found in an area. */
export const linesForFinds = 3

/** Where, and as of when. */
export function placeAndDay({ address, asOf }: Clipboard): string {
  return `${address === undefined ? '' : `${address}. `}The ledger as it stood on ${asOf}.`
}

export function siteManagerToMeet({ siteManager }: Clipboard): string {
  return siteManager ?? 'none is recorded for this day'
}

export function notAllAreas({ leftOut }: Clipboard): string | undefined {
  if (leftOut.length === 0) return undefined
  const areas = leftOut.length === 1 ? '1 other area is' : `${leftOut.length} other areas are`
  return `Not the whole site: ${areas} not on this page: ${leftOut.join(', ')}.`
}

export function complaintsWaiting({ complaints }: Clipboard): string {
  if (complaints.length === 0) return 'none'
  return complaints.length === 1 ? '1' : String(complaints.length)
}

export function complaintInWords({ place, of, says }: ClipboardComplaint): string {
  return `${place ?? 'no area named'}${of === undefined ? '' : `, ${of}`}: ${says}`
}

/** Kind, floor, and who is about. */
export function areaInWords({ id, kind, floor, usedByChildren }: ClipboardArea): string {
  if (id === '') return 'The records name no area for this.'
  if (kind === undefined)
    return 'Not among the areas of the site on this day, but something here is still open.'
  const level = floor === undefined ? '' : floor < 1 ? `, cellar (floor ${floor})` : `, floor ${floor}`
  return `${kind.split('-').join(' ')}${level}${usedByChildren ? ', children use it' : ''}`
}

export function keyAndDoor({ keys, letInBy }: ClipboardArea): string {
  if (keys === undefined && letInBy === undefined) return 'no key is recorded, nor who lets you in'
  return [keys, letInBy === undefined ? undefined : `let in by ${letInBy}`]
    .filter((part) => part !== undefined)
    .join('; ')
}

/** Points at the cautions told in full at the head. */
export function careHere({ cautions }: ClipboardArea): string | undefined {
  if (cautions.length === 0) return undefined
  return `${cautions.map(({ about }) => about).join(', ')}: see "${cautionsBefore}"`
}

export function kindInWords(group: ClipboardDevices): string {
  const name = group.kind.charAt(0).toUpperCase() + group.kind.slice(1)
  return `${name}, for ${group.for.join(', ')}`
}

/** What is to be known of one device beside its name. */
export function deviceInWords(device: ClipboardDevice, group: ClipboardDevices): string[] {
  const isOwn = device.for.join() !== group.for.join()
  return [
    ...(device.markedAs === undefined ? [] : [`marked ${device.markedAs}`]),
    ...(device.traps === 1 ? [] : [`${device.traps} traps`]),
    ...(isOwn ? [`for ${device.for.join(', ')}`] : []),
    ...(device.whilePupilsAway ? ['out only while pupils are away'] : []),
    ...(device.pickedUp === undefined ? [] : [`picked up ${device.pickedUp}, not out now`]),
  ]
}

export function conditionInWords({ since, owner, due, repairedOn }: ClipboardCondition): string {
  return [
    `found ${since}`,
    ...(owner === undefined ? [] : [`for ${owner}`]),
    ...(due === undefined ? [] : [`to be mended by ${due}`]),
    ...(repairedOn === undefined ? [] : [`repaired ${repairedOn}`]),
  ].join(', ')
}

/** Names are told in full at the head of a block; a longer one is cut where it is told again. */
export function shortName(name: string, longest: number): string {
  const characters = [...name]
  return characters.length > longest ? `${characters.slice(0, longest).join('')}…` : name
}

/** What the records place nowhere is no place to inspect. */
export function isPlace({ id }: ClipboardArea): boolean {
  return id !== ''
}
