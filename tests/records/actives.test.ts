import { describe, expect, it } from 'vitest'
import { activeIngredient } from '../../src/records/active-ingredient.js'
import { nameIdPattern } from '../../src/records/fields.js'
import { activeTable } from '../../src/records/tables.js'
import { products } from '../../src/writing/demo/products.js'

const table = activeTable()
const idsOf = (cls: string) => [...table].filter(([, row]) => row.class === cls).map(([id]) => id)

/**
 * IRAC mode of action classification, from memory (the scheme was located, its table not read): the main groups and
 * subgroups of what is used in and around schools.
 */
const groups: Readonly<Record<string, readonly string[]>> = {
  '1A': ['carbaryl', 'propoxur'],
  '1B': ['acephate', 'dichlorvos', 'ddvp', 'chlorpyrifos'],
  '2A': ['chlordane'],
  '2B': ['fipronil'],
  '3A': [
    'pyrethrins',
    'bifenthrin',
    'deltamethrin',
    'cyfluthrin',
    'beta-cyfluthrin',
    'lambda-cyhalothrin',
    'cypermethrin',
    'permethrin',
    'esfenvalerate',
    'etofenprox',
  ],
  '4A': ['imidacloprid', 'dinotefuran', 'clothianidin', 'thiamethoxam', 'acetamiprid'],
  '4D': ['flupyradifurone'],
  '5': ['spinosad'],
  '6': ['abamectin', 'emamectin-benzoate'],
  '7A': ['methoprene', 'hydroprene', 'kinoprene'],
  '7B': ['fenoxycarb'],
  '7C': ['pyriproxyfen'],
  '8C': ['sulfuryl-fluoride'],
  '8D': ['borax', 'boric-acid', 'disodium-octaborate-tetrahydrate'],
  '11A': ['bacillus-thuringiensis-israelensis', 'bacillus-thuringiensis'],
  '13': ['chlorfenapyr', 'sulfluramid'],
  '15': ['novaluron', 'lufenuron', 'diflubenzuron', 'hexaflumuron', 'noviflumuron'],
  '17': ['cyromazine'],
  '20A': ['hydramethylnon'],
  '22A': ['indoxacarb'],
  '22B': ['metaflumizone'],
  '28': ['chlorantraniliprole', 'cyantraniliprole'],
  '30': ['broflanilide', 'isocycloseram'],
  UN: ['azadirachtin'],
  UNM: ['diatomaceous-earth', 'silica-gel'],
  none: [
    'piperonyl-butoxide',
    'bromadiolone',
    'brodifacoum',
    'difethialone',
    'diphacinone',
    'bromethalin',
    'cholecalciferol',
    'zinc-phosphide',
    'glyphosate',
    'dichlorophenoxyacetic-acid',
    'iron-phosphate',
    'sodium-hypochlorite',
    'quaternary-ammonium',
    'potassium-salts-of-fatty-acids',
  ],
}

describe('the table of active ingredients', () => {
  it.each(Object.entries(groups))('group %s', (group, ids) => {
    expect(ids.map((id) => [id, table.get(id)?.group])).toEqual(ids.map((id) => [id, group]))
  })

  it('has ids that a product may use, and groups that a product may state', () => {
    const id = new RegExp(nameIdPattern)
    expect([...table.keys()].filter((key) => !id.test(key))).toEqual([])
    const refused = [...table.values()].filter(
      ({ group }) => !activeIngredient.safeParse({ strength: '1 %', 'mode-of-action': group }).success,
    )
    expect(refused).toEqual([])
  })

  it('says of every row that its group is from memory', () => {
    expect([...table].filter(([, row]) => !row.source.includes('from memory'))).toEqual([])
  })

  // Common practice, no source: these drive insects away before they kill them.
  it('marks as repellent the pyrethroids and pyrethrins, and nothing else', () => {
    const repellent = [...table].filter(([, row]) => row.repellent === 'yes').map(([id]) => id)
    expect(repellent.sort()).toEqual([...idsOf('pyrethroid'), 'pyrethrins'].sort())
    expect(idsOf('pyrethroid').length).toBeGreaterThan(10)
  })

  it('keeps the groups of the laws apart', () => {
    expect(table.get('pyrethrins')?.class).toBe('botanical')
    // A botanical with a synergist is not a botanical alone.
    expect(table.get('piperonyl-butoxide')?.class).toBe('synergist')
    // Made by microbes, but no microbes: an exemption for microbes has to be shown.
    expect(['spinosad', 'abamectin'].map((id) => table.get(id)?.class)).toEqual(['other', 'other'])
    expect(['mineral-oil', 'd-limonene', 'clove-oil'].map((id) => table.get(id)?.class)).toEqual([
      'soap-or-oil',
      'botanical',
      'botanical',
    ])
    expect(idsOf('rodenticide').every((id) => table.get(id)?.group === 'none')).toBe(true)
    expect(idsOf('herbicide').every((id) => table.get(id)?.group === 'none')).toBe(true)
    expect(idsOf('borate').every((id) => table.get(id)?.group === '8D')).toBe(true)
    expect(idsOf('pyrethroid').every((id) => table.get(id)?.group === '3A')).toBe(true)
  })

  it('knows what the invented products of the demonstration are made of', () => {
    const ids = products.flatMap(({ active }) => Object.keys(active ?? {}))
    expect(ids.length).toBeGreaterThan(0)
    expect(ids.filter((id) => !table.has(id))).toEqual([])
  })
})
