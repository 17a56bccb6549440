import { deflateSync } from 'node:zlib'
import { memorySource } from '../../src/files/memory.js'
import type { ReadMap } from '../../src/reports/map.js'
import { readMap } from '../../src/reports/map.js'
import type { SiteMap } from '../../src/reports/map-site.js'
import { day, oakFiles } from '../ledger/small-site.js'

type Texts = Readonly<Record<string, string | Uint8Array>>

interface Asked {
  readonly pest?: string
  readonly from?: string
  readonly to?: string
  readonly asOf?: string
}

/** Reads the map of Oak School; visits and other files as in `oakFiles`, files that are no text among them. */
export function readOak(
  visits: Readonly<Record<string, string>>,
  others: Texts = {},
  { pest, from, to, asOf = '2026-12-31' }: Asked = {},
): ReadMap {
  const files = new Map<string, string | Uint8Array>([...oakFiles(visits), ...Object.entries(others)])
  return readMap(
    memorySource(files),
    {
      asOf: day(asOf),
      asOfIsToday: false,
      ...(pest === undefined ? {} : { pest }),
      ...(from === undefined ? {} : { from: day(from) }),
      ...(to === undefined ? {} : { to: day(to) }),
    },
    'oak',
  )
}

/** The same, where a slip in the test is not to pass for an empty map. */
export function oakMap(...given: Parameters<typeof readOak>): SiteMap {
  const { map, report } = readOak(...given)
  if (!map) throw new Error(`the ledger of this test cannot be read: ${report.notExamined.join(' ')}`)
  return map
}

/** The site file of Oak School with these areas, and a diagram in feet. */
export function oakSite(areas: string, diagram = 'diagram: {file: plan.svg, unit: ft}'): Texts {
  return {
    'sites/oak/site.yaml': `name: Oak School\nsite-manager: [{from: 2026-01-01, who: lind}]\ncomplaint-log: office\ncontract: []\n${diagram}\nareas:\n${areas
      .trim()
      .split('\n')
      .map((line) => `  ${line.trim()}\n`)
      .join('')}`,
  }
}

/** Kitchen, 0 to 20 across and 0 to 10 down; store beside it, 20 to 40; a hall below that has no outline. */
export const threeAreas = `
kitchen: {kind: kitchen, name: Main kitchen, outline: [[0, 0], [20, 0], [20, 10], [0, 10]]}
store: {kind: storage, outline: [[20, 0], [40, 0], [40, 10], [20, 10]]}
hall: {kind: dining}
`

/** The bytes of a grey PNG of this size: PNG (third edition) 5, chunks IHDR, IDAT and IEND. */
export function pngOf(width: number, height: number): Uint8Array {
  const header = Buffer.alloc(13)
  header.writeUInt32BE(width, 0)
  header.writeUInt32BE(height, 4)
  header.set([8, 0, 0, 0, 0], 8)
  const rows = Buffer.alloc(Math.min(height, 2000) * (width + 1), 0xc8)
  for (let row = 0; row < Math.min(height, 2000); row++) rows[row * (width + 1)] = 0
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(rows)),
    chunk('IEND', Buffer.alloc(0)),
  ])
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data])
  const length = Buffer.alloc(4)
  length.writeUInt32BE(data.length)
  const check = Buffer.alloc(4)
  check.writeUInt32BE(crcOf(body))
  return Buffer.concat([length, body, check])
}

/** PNG (third edition), annex D. */
function crcOf(bytes: Buffer): number {
  let crc = 0xffffffff
  for (const byte of bytes) {
    crc ^= byte
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? 0xedb88320 ^ (crc >>> 1) : crc >>> 1
  }
  return (crc ^ 0xffffffff) >>> 0
}

/** The first bytes of a JPEG of this size: ITU-T T.81 annex B, SOI, a comment, SOF0, SOS. */
export function jpegOf(width: number, height: number): Uint8Array {
  return Uint8Array.from([
    ...[0xff, 0xd8],
    ...[0xff, 0xfe, 0x00, 0x04, 0x41, 0x42],
    ...[0xff, 0xc0, 0x00, 0x0b, 8, height >> 8, height & 255, width >> 8, width & 255, 1, 1, 0x11, 0],
    ...[0xff, 0xda, 0x00, 0x02],
  ])
}
