import { describe, expect, it } from 'vitest'
import { checkOf } from '../check/checking.js'

/** Where the rule speaks and of which other name, in an overlay on the ledger of the rules' examples. */
function told(overlay: string): string[] {
  return checkOf(overlay)
    .standing.filter(({ rule }) => rule === 'names-differ-in-capitals')
    .map(({ at, args }) => `${at.file} and ${args.other}`)
}

const files = (...paths: string[]) => paths.map((path) => `=== ${path}\nx\n`).join('')

describe('names that a disk may take for one', () => {
  it('are those that differ in capitals, in a folder or in the name of one', () => {
    expect(told(files('sites/oak/Page.jpg', 'sites/oak/page.JPG'))).toEqual([
      'sites/oak/Page.jpg and sites/oak/page.JPG',
    ])
    expect(told(files('sites/oak/Photos/1.jpg', 'sites/oak/photos/1.jpg'))).toEqual([
      'sites/oak/Photos/1.jpg and sites/oak/photos/1.jpg',
    ])
  })

  it('are those whose accents are one sign or two', () => {
    const [one, two] = ['caf\u00e9.txt', 'cafe\u0301.txt']
    expect(told(files(one, two))).toEqual([`${two} and ${one}`])
    expect(told(files('CAF\u00c9.txt', two))).toHaveLength(1)
  })

  it('are told once for every further one', () => {
    expect(told(files('A.txt', 'a.TXT', 'a.txt'))).toEqual(['A.txt and a.TXT', 'A.txt and a.txt'])
  })

  it('are not told again where a record of such a name is stray', () => {
    const { standing } = checkOf('=== people/Okafor.yaml\nname: Ada Okafor\nroles: [technician]\n')
    expect(standing.map(({ rule, at }) => `${at.file}: ${rule}`)).toEqual(['people/Okafor.yaml: stray-file'])
  })

  it('are not those of different folders, nor of different letters', () => {
    expect(
      told(files('sites/oak/a/1.jpg', 'sites/oak/b/1.jpg', 'sites/oak/cafe.txt', 'sites/oak/caf\u00e9.txt')),
    ).toEqual([])
  })
})
