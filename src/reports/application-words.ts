import type { amountUnits, areaUnits, lengthUnits, spaceUnits } from '../records/units.js'
import type { Formulation, Method, ProductKind, pupilPlaces, SignalWord } from '../records/use-words.js'

/** `a trap`, `an expert`. */
export function withArticle(word: string): string {
  return `${/^[aeiou]/.test(word) ? 'an' : 'a'} ${word}`
}

/** The words of records in the words of people who do not work in pest control. */

export const methodWords: Readonly<Record<Method, string>> = {
  'bait-placement': 'as bait, set out in small amounts',
  'in-a-station': 'as bait inside a closed station',
  'crack-and-crevice': 'in small amounts into cracks and gaps',
  void: 'into hollow spaces, such as inside a wall or a machine',
  spot: 'on a small spot only',
  baseboard: 'along the foot of the walls',
  broadcast: 'over a whole surface',
  space: 'into the air of a room',
  perimeter: 'in a band around the outside of the building',
  drench: 'poured onto the soil',
  injection: 'pressed into the ground or a wall through a thin tube',
  wipe: 'wiped on by hand',
  other: 'in a way for which the record has no word',
}

export const formWords: Readonly<Record<Formulation, string | undefined>> = {
  gel: 'a gel',
  paste: 'a paste',
  'bait-block': 'solid blocks of bait',
  'granular-bait': 'grains of bait',
  'liquid-bait': 'a liquid bait',
  'bait-station': 'small closed boxes with bait in them',
  dust: 'a fine dust',
  aerosol: 'a spray can',
  'emulsifiable-concentrate': 'a liquid that is mixed with water',
  'wettable-powder': 'a powder that is mixed with water',
  'suspension-concentrate': 'a liquid that is mixed with water',
  'soluble-concentrate': 'a liquid that is mixed with water',
  'ready-to-use-liquid': 'a liquid that is used as it comes',
  granule: 'grains',
  foam: 'a foam',
  fumigant: 'a gas',
  glue: 'a glue',
  solid: 'a solid',
  other: undefined,
}

export const kindWords: Readonly<Record<ProductKind, string>> = {
  pesticide: 'a pesticide (something made to kill pests or keep them away)',
  'minimum-risk':
    'a minimum-risk pesticide (made of things on a list for which the government asks no registration, 40 CFR 152.25(f))',
  antimicrobial: 'a disinfectant or sanitizer (it works on germs)',
  'living-agent': 'a living thing that is used against pests',
  lure: 'a lure (it draws pests into a trap)',
  device: 'a device, such as a trap',
  caulk: 'a material for closing gaps',
  'other-material': 'a material that is no pesticide',
}

/** As labels print them (40 CFR 156.64). What each means is common knowledge of the trade, from memory. */
export const signalWords: Readonly<Record<SignalWord, string>> = {
  'danger-poison': 'DANGER - POISON (the strongest warning)',
  danger: 'DANGER (the strongest warning)',
  warning: 'WARNING (the middle one of three)',
  caution: 'CAUTION (the lowest of three warnings)',
  none: 'the label has none',
}

export const pupilWords: Readonly<Record<(typeof pupilPlaces)[number], string>> = {
  'none in the building': 'No pupils were in the building.',
  'elsewhere in the building': 'Pupils were in other parts of the building.',
  'in the area': 'Pupils were in the place while it was used.',
}

export const keptOutWords = {
  fence: 'a fence',
  flags: 'flags',
  tape: 'tape',
  locked: 'a locked door or gate',
  watched: 'someone who watched it',
  signs: 'signs',
} as const

export const audienceWords = {
  everyone: 'all parents and staff',
  'all parents': 'all parents',
  'all staff': 'all staff',
  'those who asked': 'those who had asked to be told',
} as const

type Unit = (typeof amountUnits | typeof areaUnits | typeof lengthUnits | typeof spaceUnits)[number]

/** Units as people say them, for one and for more. */
const unitWords: Readonly<Record<Unit, readonly [string, string]>> = {
  in: ['inch', 'inches'],
  ft: ['foot', 'feet'],
  yd: ['yard', 'yards'],
  mm: ['millimeter', 'millimeters'],
  cm: ['centimeter', 'centimeters'],
  m: ['meter', 'meters'],
  ft2: ['square foot', 'square feet'],
  yd2: ['square yard', 'square yards'],
  acre: ['acre', 'acres'],
  m2: ['square meter', 'square meters'],
  hectare: ['hectare', 'hectares'],
  ft3: ['cubic foot', 'cubic feet'],
  '1000 ft3': ['thousand cubic feet', 'thousand cubic feet'],
  m3: ['cubic meter', 'cubic meters'],
  'fl oz': ['fluid ounce', 'fluid ounces'],
  tsp: ['teaspoon', 'teaspoons'],
  tbsp: ['tablespoon', 'tablespoons'],
  cup: ['cup', 'cups'],
  pt: ['pint', 'pints'],
  qt: ['quart', 'quarts'],
  gal: ['gallon', 'gallons'],
  mL: ['milliliter', 'milliliters'],
  L: ['liter', 'liters'],
  oz: ['ounce', 'ounces'],
  lb: ['pound', 'pounds'],
  mg: ['milligram', 'milligrams'],
  g: ['gram', 'grams'],
  kg: ['kilogram', 'kilograms'],
  block: ['block', 'blocks'],
  packet: ['packet', 'packets'],
  tablet: ['tablet', 'tablets'],
  placement: ['placement', 'placements'],
  station: ['station', 'stations'],
  each: ['piece', 'pieces'],
}

/** `3 station` or `2 fl oz` as people say it: 3 stations, 2 fluid ounces. */
export function quantityWords(quantity: string): string {
  const [, number = '', unit = ''] = /^(\S+) (.+)$/.exec(quantity) ?? []
  const words = Object.hasOwn(unitWords, unit) ? unitWords[unit as Unit] : undefined
  return words ? `${number} ${words[Number(number) === 1 ? 0 : 1]}` : quantity
}
