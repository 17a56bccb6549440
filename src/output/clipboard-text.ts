import stringWidth from 'string-width'
import type { Clipboard, ClipboardArea } from '../reports/clipboard.js'
import type { Ask, Choice } from '../reports/clipboard-asks.js'
import {
  areaAsks,
  complaintAsk,
  complaintLogAsk,
  entryAsks,
  foundAsks,
  openConditionAsks,
  repairedConditionAsks,
  siteManagerAsk,
  visitAsks,
} from '../reports/clipboard-asks.js'
import type { ClipboardCondition } from '../reports/clipboard-conditions.js'
import type { ClipboardDevice, ClipboardDevices } from '../reports/clipboard-devices.js'
import { clean } from './clean.js'
import {
  areaInWords,
  careHere,
  cautionsBefore,
  complaintInWords,
  complaintsWaiting,
  conditionInWords,
  deviceInWords,
  howToMark,
  isPlace,
  keyAndDoor,
  kindInWords,
  linesForFinds,
  notAllAreas,
  placeAndDay,
  siteManagerToMeet,
} from './clipboard-words.js'
import { wrapped } from './wrapped.js'

/** Columns of a page of plain text. */
const width = 80
const rule = '='.repeat(width)

/** The clipboard as plain text of 80 columns, to print from anywhere. */
export function clipboardText(clipboard: Clipboard): string {
  const part = notAllAreas(clipboard)
  const lines = [
    ...told(clipboard.name.toUpperCase()),
    ...told(placeAndDay(clipboard)),
    ...[...(part === undefined ? [] : [part]), ...clipboard.notExamined].flatMap((line) => told(`! ${line}`)),
    '',
    ...asked(visitAsks),
    '',
    ...told(`Site manager to meet: ${siteManagerToMeet(clipboard)}`),
    ...asked(choicesAlone(siteManagerAsk)),
    ...told(`Complaint log: ${clipboard.complaintLog}`),
    ...asked(choicesAlone(complaintLogAsk)),
    '',
    ...told(`Complaints waiting: ${complaintsWaiting(clipboard)}`),
    ...clipboard.complaints.flatMap((complaint) =>
      told(`* ${complaint.id} ${complaintInWords(complaint)}`, 2),
    ),
    '',
    ...told(howToMark),
    '',
    cautionsBefore,
    ...clipboard.cautions.flatMap(({ about, says }) => told(`* ${about}: ${says}`, 2)),
    ...clipboard.areas.flatMap(areaLines),
    '',
    rule,
    ...asked(entryAsks),
  ]
  return `${lines.join('\n').trimEnd()}\n`
}

function areaLines(area: ClipboardArea): string[] {
  const care = careHere(area)
  return [
    '',
    rule,
    ...told(area.name.toUpperCase()),
    ...told(areaInWords(area)),
    ...(area.kind === undefined ? [] : told(`Key: ${keyAndDoor(area)}`)),
    ...(care === undefined ? [] : told(`Take care: ${care}`)),
    ...(isPlace(area) ? asked(areaAsks) : []),
    ...(area.lookAt.length === 0 ? [] : ['', 'Look at']),
    ...area.lookAt.flatMap(marked),
    ...area.complaints.flatMap(({ id, says }) => [
      '',
      ...told(`Complaint ${id}: ${says}`),
      ...asked([complaintAsk]),
    ]),
    ...area.devices.flatMap(deviceLines),
    ...conditionLines(
      'Open conditions',
      area.conditions.filter(({ repairedOn }) => repairedOn === undefined),
      openConditionAsks,
    ),
    ...conditionLines(
      'Put right: look again',
      area.conditions.filter(({ repairedOn }) => repairedOn !== undefined),
      repairedConditionAsks,
    ),
    ...(isPlace(area) ? findLines() : []),
  ]
}

function findLines(): string[] {
  const lines = Array.from({ length: linesForFinds }, () => ['', ...asked(foundAsks)])
  return ['', 'Found now, outside devices', ...lines.flat()]
}

function deviceLines(group: ClipboardDevices): string[] {
  return ['', ...told(kindInWords(group)), ...group.devices.flatMap((device) => oneDevice(device, group))]
}

function oneDevice(device: ClipboardDevice, group: ClipboardDevices): string[] {
  return [
    '',
    ...told([device.id, ...deviceInWords(device, group)].join(', '), 2),
    ...told(`last look ${device.last}`, 6),
    ...asked(group.asks, 6),
  ]
}

function conditionLines(
  title: string,
  conditions: readonly ClipboardCondition[],
  asks: readonly Ask[],
): string[] {
  if (conditions.length === 0) return []
  return [
    '',
    title,
    ...conditions.flatMap((condition) => [
      '',
      ...told(`${condition.name}: ${condition.says}`, 2),
      ...told(conditionInWords(condition), 6),
      ...asked(asks, 6),
    ]),
  ]
}

/** A box to tick, and words beside it. */
function marked(text: string): string[] {
  const before = `  ${mark} `
  return told(text, before.length, before.length).map((line, at) =>
    at === 0 ? before + line.slice(before.length) : line,
  )
}

/** Text of records on lines that fit, words that do not fit broken; lines after the first are set in further. */
function told(text: string, indent = 0, hanging = indent + 2): string[] {
  const room = width - hanging
  const words = clean(text.replace(/\s+/g, ' ').trim())
    .split(' ')
    .flatMap((word) => pieces(word, room))
  return wrapped(' '.repeat(indent) + words.join(' '), width, ' '.repeat(hanging))
}

/** A word in pieces of at most so many columns. */
function pieces(word: string, room: number): string[] {
  if (stringWidth(word) <= room) return [word]
  const parts: string[] = []
  let part = ''
  for (const character of word) {
    if (part !== '' && stringWidth(part + character) > room) {
      parts.push(part)
      part = ''
    }
    part += character
  }
  return [...parts, part]
}

const mark = '[  ]'
const number = '[________]'
const words = '[____________________]'

/** Boxes on as few lines as hold them; a box never parts from its words, and the last grows to the end of its line. */
function asked(asks: readonly Ask[], indent = 2): string[] {
  const items = asks.flatMap(boxes)
  const lines: string[] = []
  let line = ''
  for (const item of items) {
    if (line !== '' && indent + line.length + gap.length + item.length > width) {
      lines.push(line)
      line = item
    } else line = line === '' ? item : line + gap + item
  }
  return [...lines, line].map((one) => grown(' '.repeat(indent) + one))
}

/** A box for words at the end of a line takes what is left of it. */
function grown(line: string): string {
  return line.endsWith(words) ? `${line.slice(0, -1).padEnd(width - 1, '_')}]` : line
}

const gap = '   '

/** The words of a choice whose matter stands right above. */
function choicesAlone({ choices }: Choice): Ask[] {
  return choices.map((choice) => ({ write: choice, as: 'mark' }))
}

function boxes(ask: Ask): string[] {
  switch (ask.as) {
    case 'mark':
      return [`${mark} ${ask.write}`]
    case 'number':
      return [`${ask.write} ${number}`]
    case 'words':
      return [`${ask.write} ${words}`]
    case 'choice':
      return ask.choices.map((choice, at) => `${at === 0 ? `${ask.write}: ` : ''}${mark} ${choice}`)
  }
}
