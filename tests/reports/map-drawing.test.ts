import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { workTree } from '../../src/files/work-tree.js'
import { readMap } from '../../src/reports/map.js'
import { pictureSize } from '../../src/reports/map-picture-size.js'
import type { MapDrawing } from '../../src/reports/map-site.js'
import { newFolder, writeFiles } from '../cli/run-doorsweep.js'
import { day, oakFiles } from '../ledger/small-site.js'
import { jpegOf, oakMap, oakSite, pngOf, threeAreas } from './map-ledgers.js'

const corners = 'corners: [[-4, -4], [44, 14]]'
const drawingOf = (diagram: string, file?: Uint8Array | string): MapDrawing =>
  oakMap(
    {},
    {
      ...oakSite(threeAreas, `diagram: {unit: ft, ${diagram}}`),
      ...(file === undefined ? {} : { 'sites/oak/plan.png': file }),
    },
  ).drawing
const whyOf = (drawing: MapDrawing) => (drawing.is === 'left out' ? drawing.why : drawing.is)

describe('the drawing under a map', () => {
  it('is a PNG or a JPEG by its bytes, with its corners where the site says', () => {
    const png = pngOf(480, 180)
    expect(drawingOf(`file: plan.png, ${corners}`, png)).toEqual({
      is: 'drawn',
      file: 'plan.png',
      type: 'image/png',
      width: 480,
      height: 180,
      base64: Buffer.from(png).toString('base64'),
      from: { x: -4, y: -4 },
      to: { x: 44, y: 14 },
      // 48 ft over 480 pixels, 18 ft over 180: a tenth of a foot a pixel both ways.
      stretched: false,
    })
    expect(drawingOf(`file: plan.png, ${corners}`, jpegOf(960, 360))).toMatchObject({
      is: 'drawn',
      type: 'image/jpeg',
      width: 960,
      height: 360,
      stretched: false,
    })
    expect(drawingOf(`file: plan.png, ${corners}`, jpegOf(960, 400))).toMatchObject({ stretched: true })
  })

  it.each([
    ['file: plan.svg', undefined, 'an SVG may carry scripts'],
    ['file: plan.SVGZ', undefined, 'an SVG may carry scripts'],
    [`file: plan.png, ${corners}`, undefined, 'it is not in the ledger'],
    [`file: plan.png, ${corners}`, '<svg xmlns="http://www.w3.org/2000/svg"/>', 'only a PNG or a JPEG'],
    [`file: plan.png, ${corners}`, '%PDF-1.7', 'only a PNG or a JPEG'],
    [`file: plan.png, ${corners}`, '', 'only a PNG or a JPEG'],
    [`file: plan.png, ${corners}`, pngOf(480, 180).slice(0, 20), 'only a PNG or a JPEG'],
    [`file: plan.png, ${corners}`, pngOf(0, 180), 'only a PNG or a JPEG'],
    [
      `file: plan.png, ${corners}`,
      pngOf(20_000, 10),
      '20000 by 10 pixels are too many; at most 12000 a side',
    ],
    [`file: plan.png, ${corners}`, jpegOf(11_000, 11_000), '11000 by 11000 pixels are too many'],
    ['file: plan.png', pngOf(480, 180), 'where it lies is not said: state `corners:'],
    ['file: plan.png, corners: [[44, 14], [-4, -4]]', pngOf(480, 180), 'its `corners` are not its top left'],
    ['file: plan.png, corners: [[0, 0], [0, 14]]', pngOf(480, 180), 'its `corners` are not its top left'],
    [
      'file: plan.png, corners: [[0, 0], [900000, 14]]',
      pngOf(480, 180),
      'its `corners` are not its top left',
    ],
  ])('%s is left out, with the reason', (diagram, file, why) => {
    expect(whyOf(drawingOf(diagram, file))).toContain(why)
  })

  it('is not read from outside the ledger, and not when it is large', () => {
    const root = newFolder()
    const outside = newFolder()
    writeFileSync(join(outside, 'plan.png'), pngOf(480, 180))
    const site = (file: string) =>
      oakSite(threeAreas, `diagram: {unit: ft, file: ${file}, ${corners}}`) as Record<string, string>
    const drawn = (file: string) => {
      writeFiles(root, oakFiles({}, site(file)))
      const { map } = readMap(workTree(root), { asOf: day('2026-12-31'), asOfIsToday: false }, 'oak')
      return map && whyOf(map.drawing)
    }
    mkdirSync(join(root, 'sites/oak'), { recursive: true })
    symlinkSync(join(outside, 'plan.png'), join(root, 'sites/oak/link.png'))
    symlinkSync(outside, join(root, 'sites/oak/folder'))
    writeFileSync(
      join(root, 'sites/oak/large.png'),
      Buffer.concat([pngOf(480, 180), Buffer.alloc(2 * 1024 * 1024)]),
    )
    expect(drawn('link.png')).toMatch(/^it .*link/)
    expect(drawn('folder/plan.png')).toBe('it lies behind a link that leads out of the ledger')
    expect(drawn('large.png')).toMatch(/^it is \d+ bytes; what is read is at most 2097152$/)
    // The schema refuses a path that climbs out, so the site itself is not read.
    expect(drawn('../../plan.png')).toBeUndefined()
  })
})

describe('pictureSize', () => {
  it('passes over what stands before the size in a JPEG, and gives up where there is none', () => {
    const filled = [
      0xff, 0xd8, 0xff, 0xff, 0xff, 0xe0, 0x00, 0x02, 0xff, 0xc2, 0x00, 0x0b, 8, 0x01, 0x00, 0x02, 0x00, 1,
    ]
    expect(pictureSize(Uint8Array.from(filled))).toEqual({ type: 'image/jpeg', width: 512, height: 256 })
    expect(
      pictureSize(Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, 0x00, 0x00, ...Array(20).fill(0)])),
    ).toBeNull()
    expect(
      pictureSize(Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, 0xff, 0xff, ...Array(20).fill(0)])),
    ).toBeNull()
    expect(pictureSize(Uint8Array.from([0xff, 0xd8, 0x00, ...Array(20).fill(0)]))).toBeNull()
    expect(pictureSize(new Uint8Array(0))).toBeNull()
  })
})
