import { describe, expect, it } from 'vitest'
import { workTree } from '../../src/files/work-tree.js'
import { onlySite } from '../../src/ledger/one-site.js'
import { otherSite } from '../cli/overlays.js'
import { ledgerFolder } from '../cli/run-doorsweep.js'

describe('one site of a ledger', () => {
  const source = workTree(ledgerFolder(otherSite('elm', 'inspected: [kitchen]')))
  const paths = (site: string) =>
    onlySite(source, site)
      .list()
      .map(({ path }) => path)

  it('is its own records and those of the district', () => {
    const wanted = source
      .list()
      .map(({ path }) => path)
      .filter((path) => !path.startsWith('sites/elm/'))
    expect(paths('oak')).toEqual(wanted)
    expect(paths('oak')).toContain('sites/oak/site.yaml')
    expect(paths('oak')).toContain('plans/house-mouse.yaml')
  })

  it('does not walk the folders of others', () => {
    const walked: string[] = []
    const spied = {
      ...source,
      list: (goesInto: (folder: string) => boolean = () => true) =>
        source.list((folder) => {
          if (goesInto(folder)) walked.push(folder)
          return goesInto(folder)
        }),
    }
    onlySite(spied, 'oak').list()
    expect(walked).toContain('sites/oak/visits')
    expect(walked.filter((folder) => folder.includes('elm'))).toEqual([])
  })
})
