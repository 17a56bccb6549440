import type { Random } from '../../measure/seeded-random.js'
import { pick, wholeBetween } from '../../measure/seeded-random.js'

/** Invented names, put together from parts so that no list of real people or schools is needed. */

const given =
  'Ada Bela Cato Dara Edda Finn Gala Hedy Ilja Jora Kaya Lev Mira Nilo Orla Pavo Quin Rosa Sami Tova Ulla Vida Wim Yara Zeno'.split(
    ' ',
  )
const surnameStarts =
  'Ald Birk Cran Dell Ewen Farl Gorm Hask Ivel Jarn Kest Lorn Mosk Nave Orrin Pell Quarn Rusk Silv Tarn Umber Vell Warn Yorl'.split(
    ' ',
  )
const surnameEnds = 'beck croft dale ens holm kin lock mar nett rick son thwait'.split(' ')

const siteStarts =
  'Bramble Otter Quill Heron Willow Cinder Marl Fennel Larch Sorrel Thistle Plover Gorse Linnet Tansy Rowan Sedge Alder Bracken Teasel'.split(
    ' ',
  )
const siteEnds = 'ridge brook ford gate hollow bank mere field fell wick stead moor'.split(' ')
const siteKinds = ['Elementary', 'Elementary', 'Elementary', 'Middle School', 'High School']

export interface Named {
  readonly id: string
  readonly name: string
}

export interface NameMaker {
  readonly person: () => Named
  readonly site: () => Named
}

/** Makes names that are never given twice. */
export function nameMaker(random: Random): NameMaker {
  const taken = new Set<string>()
  const unused = (make: () => Named): Named => {
    for (let tries = 0; ; tries++) {
      const made = make()
      const id = tries < 40 ? made.id : `${made.id}-${tries - 38}`
      if (taken.has(id)) continue
      taken.add(id)
      return { id, name: tries < 40 ? made.name : `${made.name} ${tries - 38}` }
    }
  }
  return {
    person: () =>
      unused(() => {
        const surname = pick(random, surnameStarts) + pick(random, surnameEnds)
        return { id: surname.toLowerCase(), name: `${pick(random, given)} ${surname}` }
      }),
    site: () =>
      unused(() => {
        const name = pick(random, siteStarts) + pick(random, siteEnds)
        return { id: name.toLowerCase(), name: `${name} ${pick(random, siteKinds)}` }
      }),
  }
}

/** A work telephone number from the range kept free for fiction (555-0100 to 555-0199). */
export function inventedPhone(random: Random): string {
  return `555-01${wholeBetween(random, 10, 99)}`
}
