import type { Clipboard, ClipboardArea } from '../reports/clipboard.js'
import type { Ask, Choice } from '../reports/clipboard-asks.js'
import {
  areaAsks,
  complaintAsk,
  complaintLogAsk,
  entryAsks,
  siteManagerAsk,
  visitAsks,
} from '../reports/clipboard-asks.js'
import { clipboardCss } from './clipboard-css.js'
import { conditionTables, deviceTables, findsTable } from './clipboard-tables-html.js'
import {
  areaInWords,
  careHere,
  cautionsBefore,
  complaintInWords,
  complaintsWaiting,
  howToMark,
  isPlace,
  keyAndDoor,
  notAllAreas,
  placeAndDay,
  shortName,
  siteManagerToMeet,
} from './clipboard-words.js'
import { escapeHtml, htmlPage } from './html.js'

/** Letters of a name in the foot of a page. */
const longestInFooter = 50

/** The clipboard as one page that stands alone and prints on Letter and A4. */
export function clipboardHtml(clipboard: Clipboard): string {
  const { name, asOf, areas } = clipboard
  return htmlPage({
    title: `${name}, clipboard, as of ${asOf}`,
    css: clipboardCss(`${shortName(name, longestInFooter)}, as of ${asOf}`),
    body: [
      headOf(clipboard),
      cautionsOf(clipboard),
      '<main>',
      ...areas.map(areaBlock),
      '</main>',
      `<footer>${asksLine(entryAsks)}</footer>`,
    ].join('\n'),
  })
}

function headOf(clipboard: Clipboard): string {
  const part = notAllAreas(clipboard)
  return [
    '<header>',
    `<h1>${escapeHtml(clipboard.name)}</h1>`,
    `<p>${escapeHtml(placeAndDay(clipboard))}</p>`,
    ...[...(part === undefined ? [] : [part]), ...clipboard.notExamined].map(
      (line) => `<p class="key">${escapeHtml(line)}</p>`,
    ),
    asksLine(visitAsks.filter(({ as }) => as !== 'choice')),
    ...visitAsks.filter(({ as }) => as === 'choice').map((ask) => asksLine([ask])),
    keyed('Site manager to meet', siteManagerToMeet(clipboard)),
    choicesLine(siteManagerAsk),
    keyed('Complaint log', clipboard.complaintLog),
    choicesLine(complaintLogAsk),
    keyed('Complaints waiting', complaintsWaiting(clipboard)),
    ...list(
      clipboard.complaints.map(
        (complaint) =>
          `<strong>${escapeHtml(complaint.id)}</strong> ${escapeHtml(complaintInWords(complaint))}`,
      ),
    ),
    `<p>${howToMark}</p>`,
    '</header>',
  ].join('\n')
}

function cautionsOf({ cautions }: Clipboard): string {
  const items = cautions.map(
    ({ about, says }) => `<strong>${escapeHtml(about)}:</strong> ${escapeHtml(says)}`,
  )
  return ['<section class="cautions">', `<h2>${cautionsBefore}</h2>`, ...list(items), '</section>'].join('\n')
}

function areaBlock(area: ClipboardArea): string {
  const care = careHere(area)
  return [
    '<section class="area">',
    `<h2>${escapeHtml(area.name)}</h2>`,
    `<p>${escapeHtml(areaInWords(area))}${area.kind === undefined ? '' : `. <span class="key">Key:</span> ${escapeHtml(keyAndDoor(area))}`}</p>`,
    ...(care === undefined ? [] : [keyed('Take care', care)]),
    ...(isPlace(area) ? [asksLine(areaAsks)] : []),
    ...(area.lookAt.length === 0
      ? []
      : [
          '<h3>Look at</h3>',
          '<ul class="looks">',
          ...area.lookAt.map((place) => `<li>${mark}<span>${escapeHtml(place)}</span></li>`),
          '</ul>',
        ]),
    ...area.complaints.flatMap((complaint) => [
      keyed(`Complaint ${complaint.id}`, complaint.says),
      asksLine([complaintAsk]),
    ]),
    ...deviceTables(area),
    ...conditionTables(area),
    ...(isPlace(area) ? [findsTable(area)] : []),
    '</section>',
  ].join('\n')
}

function keyed(key: string, value: string): string {
  return `<p><span class="key">${escapeHtml(key)}:</span> ${escapeHtml(value)}</p>`
}

/** Items are markup already. */
function list(items: readonly string[]): string[] {
  return items.length === 0 ? [] : ['<ul>', ...items.map((item) => `<li>${item}</li>`), '</ul>']
}

const mark = '<span class="box"></span>'

/** Things to write down on one line, or as many as it takes. */
function asksLine(asks: readonly Ask[]): string {
  return `<div class="asks">${asks.map(askHtml).join('')}</div>`
}

/** The words of a choice whose matter stands right above. */
function choicesLine({ choices }: Choice): string {
  return `<div class="asks">${choicesHtml(choices)}</div>`
}

function choicesHtml(choices: readonly string[]): string {
  return choices
    .map((choice) => `<span class="ask">${mark}<span>${escapeHtml(choice)}</span></span>`)
    .join('')
}

function askHtml(ask: Ask): string {
  const label = escapeHtml(ask.write)
  switch (ask.as) {
    case 'choice':
      return `<strong>${label}</strong>${choicesHtml(ask.choices)}`
    case 'mark':
      return `<span class="ask">${mark}<span>${label}</span></span>`
    default:
      return `<span class="ask ${ask.as}"><span>${label}</span>${mark}</span>`
  }
}
